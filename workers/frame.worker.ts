import { expose } from 'comlink';
import { createFrameService } from './frame-service.ts';

expose(createFrameService());
