import { createStageService } from './stage-service.ts';
import { serve } from './serve.ts';

serve(createStageService());
