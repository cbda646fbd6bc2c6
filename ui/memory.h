// SPDX-License-Identifier: GPL-3.0-or-later
/* memory - how the program as a whole asks for it: fresh from the system it is mapped page by page, which takes longer than what is painted or summed in it. */
#ifndef HW_MEMORY_H
#define HW_MEMORY_H

/* What is given back is kept, for the next frame, solution or step of a command. Once, at the start. */
void hw_memory_keep (void);
/* Asks the system for a command's memory in large pages, and begins it where one does: small ones, one by one as each is first touched, take as long as some of the commands. */
void hw_memory_map (void);

#endif
