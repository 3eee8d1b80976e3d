import { createWeaveService } from './weave-service.ts';
import { serve } from './serve.ts';

serve(createWeaveService());
