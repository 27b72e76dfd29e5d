/** How long, and through how many events, a bench is given to come to rest before it is said to have none. */

/** How long a bench is given to come to rest after the last event [s]: what still creeps then is a node in the air. */
export const PATIENCE = 0.2;
/** Turns of the loop after which a bench is given up as never resting, or left behind for this stretch of time. */
export const TURNS_TO_REST = 30_000;
export const TURNS_IN_TIME = 300_000;
/** A level that passes a mark so many times after one move of a contact, with nothing due but clocks' ticks, has no rest: an oscillator's. */
export const RESTLESS = 30;
/** The same while more is due: a memory may step through a sequence of its own before it stops. */
export const RESTLESS_ANSWERING = 120;
