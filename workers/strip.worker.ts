import { expose } from 'comlink';
import { createStripService } from './strip-service.ts';

expose(createStripService());
