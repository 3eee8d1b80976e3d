/** Reads colour profiles and makes tables of them. Engine and checks are loaded when they are asked for. */
import type {
  ColourWorker,
  FoundProfile,
  LookRequest,
  PrintTable,
  ReadProfileRequest,
  TableBlob,
  TableRequest,
} from '../src/contract/colour.ts';
import { Calls } from './answer.ts';

const reader = () => import('./colour/read.ts');

const readProfile = async (request: ReadProfileRequest): Promise<FoundProfile> =>
  (await reader()).found(request);
const printTable = async (request: TableRequest): Promise<PrintTable> =>
  (await reader()).printTable(request);
const lookTable = async (request: LookRequest): Promise<TableBlob> =>
  (await reader()).lookTable(request);

export const createColourService = (): ColourWorker => {
  const calls = new Calls();
  return {
    readProfile: calls.method(readProfile),
    printTable: calls.method(printTable),
    lookTable: calls.method(lookTable),
    cancel: calls.cancel,
  };
};
