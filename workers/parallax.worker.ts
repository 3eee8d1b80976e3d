import { expose } from 'comlink';
import { createParallaxService } from './parallax-service.ts';

expose(createParallaxService());
