/** A place taken with tape and square, where nothing is said [+-mm]. Common practice, no source. */
export const TAPE_KNOWN_TO_MM = 5;

/** A facing judged by eye, protractor or level, where nothing is said [+-deg]. Common practice, no source. */
export const FACING_KNOWN_DEG = 5;
