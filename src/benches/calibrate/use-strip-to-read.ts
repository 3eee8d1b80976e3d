/** The strip that the bench speaks of; undefined where neither a woven one nor the fields give one. */
import { useMemo } from 'react';
import { isoDay } from '../../core/units/day.ts';
import { stripToRead } from '../../job/facts/strip-readings.ts';
import type { WovenStrip } from '../../job/schema/pitch.ts';
import { useJob, useUnits } from '../studio.ts';

export const useStripToRead = (): WovenStrip | undefined => {
  const job = useJob();
  const units = useUnits();
  return useMemo(() => stripToRead(job, units, isoDay(new Date())), [job, units]);
};
