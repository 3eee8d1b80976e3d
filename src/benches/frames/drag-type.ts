/** Marks a frame on its way from the list to another place in it, or to a view slot. */
export const FRAME_DRAG_TYPE = 'application/x-tiltloom-frame';
