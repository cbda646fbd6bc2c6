# SPDX-License-Identifier: GPL-3.0-or-later
# Started with nothing, the program shows the example course and says so; every control has a name.
start
expect alert 'This is an example, Fenwhistle.*'
expect image 'Drawing of the hole' 'Shot 1 of 1: .* carries [0-9]+ yd, [0-9]+ yd left to the hole'
expect list 'Carries'
expect list 'Shots of the plan'
unnamed=$(see unnamed)
[ -z "$unnamed" ] || fail "controls without a name: $unnamed"
settled
picture plan
# along the course by key, up the hole by button
key ctrl+Next
expect 'frame' '02-.*'
press 'push button|toggle button' 'up the hole'
expect_gone image 'Ruler and clubs'
picture up-the-hole
passed
