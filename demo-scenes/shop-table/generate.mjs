/** node demo-scenes/shop-table/generate.mjs [--check] */
import { readFileSync, writeFileSync } from 'node:fs';
import { writeGlb } from '../shared/glb.mjs';
import { materials, scene } from './scene.mjs';

const file = new URL('./shop-table.glb', import.meta.url);
const { parts, ...more } = scene();
const bytes = writeGlb(parts, materials, more);
if (process.argv.includes('--check')) {
  const same = readFileSync(file).equals(bytes);
  console.log(`shop-table.glb ${same ? 'as stored' : 'DIFFERS'}`);
  process.exitCode = same ? 0 : 1;
} else writeFileSync(file, bytes);
