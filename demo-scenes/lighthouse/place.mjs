/** Where the tower stands. Kept apart so that weather and land can both know it. */
export const TOWER_X = 27;
export const TOWER_Z = 70;
/** The middle of the lamp. */
export const LAMP = [TOWER_X, -76, TOWER_Z];
