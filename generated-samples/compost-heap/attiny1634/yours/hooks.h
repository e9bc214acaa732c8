/*
 * Your own code hooks in here. This file was created once and will never be
 * written again: it is yours. A hook that is empty costs nothing. To call a
 * function of your own, say of a file yours/door.c, declare it here and put the
 * call in the place of ((void)0) or ((void)(alarm)).
 */
#ifndef HOOKS_H
#define HOOKS_H

/* Runs once, when everything is ready: YOURS_BEGIN(). */
#define YOURS_BEGIN() ((void)0)

/* Runs after each reading, with whether the alarm is on: YOURS_EACH_READING(alarm). */
#define YOURS_EACH_READING(alarm) ((void)(alarm))

#endif
