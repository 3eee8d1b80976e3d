/** What @types/three leaves out of three 0.187 and tests check the rig against. */
declare module 'three/addons/loaders/usd/USDAParser.js' {
  export class USDAParser {
    /** Nested records: "def Camera "A"" → "float focalLength" → its text or number. */
    parseText(text: string): Record<string, unknown>;
  }
}
