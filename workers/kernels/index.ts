/**
 * The kernels: the loops that take nearly all of the time of a sheet, and of measured parallax, in AssemblyScript, which
 * looks like TypeScript and is compiled to WebAssembly with vector instructions.
 *
 * A kernel works on numbers that lie in the module's one memory. Its arguments are addresses in it, bytes, and counts;
 * whoever calls it has laid out the room (src/core/numeric/kernels.ts) and answers for the lengths. Nothing is
 * allocated here, and nothing is kept from one call to the next. Numbers lie lowest byte first. A name that ends in
 * `Row` takes one row.
 */
export { proofRow } from './proof';
export { blendRow, weaveRow } from './weave';
export { mixRow, stretchRow } from './weave-lying';
export { addRow, averageRow, lightRow, roundRow } from './reduce';
export { softenRow } from './soften';
export { filterRows } from './filter';
export { convertDots } from './convert';
export { adler32 } from './adler';
export { likelyRib, searchNear } from './search-near';
export { searchFar } from './search-far';
export { writeBody } from './body';
export { startsRow, wholeRow } from './match-whole';
export { refineRow } from './match-refine';
export { slopeRow } from './slope';

/** Address of the first byte that the module itself does not use. */
export function roomFrom(): usize {
  return __heap_base;
}
