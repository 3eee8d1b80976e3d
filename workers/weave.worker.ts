import { expose } from 'comlink';
import { createWeaveService } from './weave-service.ts';

expose(createWeaveService());
