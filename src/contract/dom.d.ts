/**
 * The contract speaks of Blobs and canvases but is compiled without the DOM. This names the types only; where
 * the page's or the workers' libraries are present, the empty interfaces merge with theirs.
 */
interface Blob {}
interface OffscreenCanvas {}
interface ImageBitmap {}
