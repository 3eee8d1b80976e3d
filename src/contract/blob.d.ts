/**
 * The contract speaks of Blobs but is compiled without the DOM. This names the type only; where the
 * page's or the workers' libraries are present, the empty interface merges with theirs.
 */
interface Blob {}
