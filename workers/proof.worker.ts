import { createProofService } from './proof-service.ts';
import { serve } from './serve.ts';

serve(createProofService());
