/** Tables of printers' numbers, read once for all bands of a sheet. */
import type { TableBlob } from '../src/contract/colour.ts';
import type { DeviceTable } from '../src/core/colour/icc/device-table.ts';
import { lastFew } from './remembered.ts';

const known = lastFew<DeviceTable>(1);

/** Rejects where the table's bytes can no longer be read. */
export const deviceTableOf = ({ key, channels, nodes }: TableBlob): Promise<DeviceTable> =>
  known(key, async () => ({ channels, nodes: new Uint16Array(await nodes.arrayBuffer()) }));
