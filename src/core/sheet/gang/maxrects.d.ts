/** The package's own entry holds nothing that Node's ES modules can see, and its types are elsewhere. */
declare module 'maxrects-packer/dist/maxrects-packer.mjs' {
  export * from 'maxrects-packer/dist/index';
}
