import { createStripService } from './strip-service.ts';
import { serve } from './serve.ts';

serve(createStripService());
