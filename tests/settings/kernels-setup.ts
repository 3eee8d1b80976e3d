/** Before each test file: the kernels, as every worker has them. */
import { loadKernels } from '../../workers/kernels.ts';

await loadKernels();
