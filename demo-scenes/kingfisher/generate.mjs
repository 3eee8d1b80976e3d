/** node demo-scenes/kingfisher/generate.mjs [--check] [--only 1,12] */
import { run } from '../shared/run.mjs';
import { scene } from './scene.mjs';

await run(import.meta.url, scene);
