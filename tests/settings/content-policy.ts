/**
 * What the built studio may load and where it may speak: its own folder, and nothing else. Written into the
 * page, and sent as a header by `npm start`, so that workers are held to it too (a worker's policy comes with
 * its own file). Whoever hosts the folder elsewhere should send the same header.
 */
const policy: Readonly<Record<string, string>> = {
  'default-src': "'none'",
  // WebAssembly is compiled, never text: the kernels, the colour engine and one TIFF decompressor need it.
  'script-src': "'self' 'wasm-unsafe-eval'",
  'worker-src': "'self'",
  'style-src': "'self'",
  'font-src': "'self'",
  'img-src': "'self' blob:",
  // `data:` is how that decompressor (zstddec) brings its own code along; it reaches nobody.
  'connect-src': "'self' blob: data:",
  'manifest-src': "'self'",
  'base-uri': "'none'",
  'form-action': "'none'",
};

const asText = (rules: Readonly<Record<string, string>>): string =>
  Object.entries(rules)
    .map(([name, value]) => `${name} ${value}`)
    .join('; ');

export const contentPolicy = asText(policy);

/** With what only a header can say: nobody may put the studio into a frame. */
export const contentPolicyHeader = asText({ ...policy, 'frame-ancestors': "'none'" });
