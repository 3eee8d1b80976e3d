/** Copies what lies somewhere into a sink, a piece at a time. */
import type { Sink } from '../contract/sink.ts';

export const pourInto = async (content: Blob, { write }: Pick<Sink, 'write'>): Promise<void> => {
  const reader = content.stream().getReader();
  for (let next = await reader.read(); !next.done; next = await reader.read())
    await write(next.value);
};
