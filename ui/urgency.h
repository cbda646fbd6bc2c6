// SPDX-License-Identifier: GPL-3.0-or-later
/* urgency - which threads the processor is given to first, when more of them ask for it than there are. On Linux; elsewhere all are alike. */
#ifndef HW_URGENCY_H
#define HW_URGENCY_H

/* For the threads that make the frame: one that wakes, or is at work when the display server wakes, need not wait until another has had its turn. It gets no more of the processor by it. */
void hw_urgency_be_prompt (void);
/* For the thread of the window while it makes a frame: others that wake where it runs wait until that is made, or go elsewhere. hw_urgency_be_prompt ends it. */
void hw_urgency_be_steady (void);
/* For a thread that works beside the window, and the threads it starts: it gets what the window leaves, so that frames do not wait for it. */
void hw_urgency_give_way (void);

#endif
