import { expose } from 'comlink';
import { createPictureService } from './picture-service.ts';

expose(createPictureService());
