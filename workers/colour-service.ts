/** Reads colour profiles and makes tables of them. Engine and checks are loaded when they are asked for. */
import type {
  ColourWorker,
  FoundProfile,
  LookRequest,
  MissedRequest,
  PrintTable,
  ReadProfileRequest,
  TableBlob,
  TableRequest,
} from '../src/contract/colour.ts';
import type { Missed } from '../src/core/colour/icc/look.ts';
import { Calls } from './answer.ts';

const reader = () => import('./colour/read.ts');

const readProfile = async (request: ReadProfileRequest): Promise<FoundProfile> =>
  (await reader()).found(request);
const printTable = async (request: TableRequest): Promise<PrintTable> =>
  (await reader()).printTable(request);
const lookTable = async (request: LookRequest): Promise<TableBlob> =>
  (await reader()).lookTable(request);

const missedColours = async (request: MissedRequest): Promise<Missed> =>
  (await reader()).missedColours(request);

export const createColourService = (): ColourWorker => {
  const calls = new Calls();
  return {
    readProfile: calls.method(readProfile),
    printTable: calls.method(printTable),
    lookTable: calls.method(lookTable),
    missedColours: calls.method(missedColours),
    cancel: calls.cancel,
  };
};
