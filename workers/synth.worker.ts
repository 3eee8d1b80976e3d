import { expose } from 'comlink';
import { createSynthService } from './synth-service.ts';

expose(createSynthService());
