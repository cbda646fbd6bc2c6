# SPDX-License-Identifier: GPL-3.0-or-later
# The card step shows the page; a block can be switched off; export writes a page of the right size.
cp "$COURSES"/fenwhistle/02-*.svg "$FOLDER/hole.svg"
cp "$COURSES/fenwhistle/bag.csv" "$FOLDER/bag.csv"
start "$FOLDER/hole.svg"
settled
key alt+3
expect image Card 'Page 108 by 178 millimetres, drawing 1:[0-9]+'
settled
picture card
press 'check box' 'Lines for notes'
picture card-without-notes
cmp -s "$FOLDER/card.png" "$FOLDER/card-without-notes.png" && fail "switching the notes off changed nothing"
key ctrl+e
choose_file "$FOLDER/out.pdf" 'Export the Card'
expect alert "The card is in .*out\.pdf\."
size=$(pdfinfo "$FOLDER/out.pdf" | sed -n 's/^Page size: *//p')
case $size in 306*x\ 504*) ;; *) fail "the page is $size" ;; esac
passed
