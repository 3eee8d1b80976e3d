import { expose } from 'comlink';
import { createPhotoService } from './photo-service.ts';

expose(createPhotoService());
