/** Node cannot see the package’s own entry as an ES module, and its types are elsewhere. */
declare module 'maxrects-packer/dist/maxrects-packer.mjs' {
  export * from 'maxrects-packer/dist/index';
}
