import { createPictureService } from './picture-service.ts';
import { serve } from './serve.ts';

serve(createPictureService());
