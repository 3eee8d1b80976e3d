/** How many frames an eye would tell apart with a lens of which only the pitch is known. */
import { useEffect, useMemo, useState } from 'react';
import { standing } from '../../../core/lens/focus.ts';
import type { LensSheet } from '../../../core/lens/lens.ts';
import { framesToldApart } from '../../../core/plan/fit.ts';
import { dpi, lpi, lpiToMm, mm } from '../../../core/units/units.ts';
import type { Job } from '../../../job/schema/job.ts';
import { lensOf } from '../../../job/facts/sheet.ts';
import type { Row, ToldApart } from '../../../materials/pairs.ts';

/** Work at a stretch, ms; the page draws in between. */
const STRETCH_MS = 12;

/** The job's own lens as it is; another in proportion to it, in focus, of the same material. */
const lensFor = (job: Job, row: Row): LensSheet => {
  if (row.isOwnLens) return lensOf(job);
  const pitchMm = lpiToMm(lpi(row.lpi));
  const thicknessMm = mm((job.lens.thicknessMm * pitchMm) / job.lens.pitchMm);
  return { pitchMm, thicknessMm, index: job.lens.index };
};

/** Undefined when no such rib can stand. About two milliseconds' work. */
const toldApartOf = (job: Job, row: Row): number | undefined => {
  const stands = standing(lensFor(job, row));
  return stands === undefined
    ? undefined
    : framesToldApart(
        stands.lens,
        { acrossDpi: dpi(row.dpi), columns: job.columns },
        mm(job.print.viewingDistanceMm),
      );
};

/** Everything of the job that the estimates rest on. */
const keyOf = ({ lens, print, columns }: Job): string =>
  JSON.stringify([lens, print.viewingDistanceMm, columns]);

const nothing: ToldApart = new Map();

/** Estimates for the rows, traced a few at a time while the page is idle; kept until the lens changes. */
export const useToldApart = (job: Job, rows: readonly Row[]): ToldApart => {
  const key = keyOf(job);
  const [found, setFound] = useState({ key, told: nothing });
  const told = found.key === key ? found.told : nothing;
  const missing = useMemo(() => rows.filter(({ id }) => !told.has(id)), [rows, told]);
  useEffect(() => {
    if (missing.length === 0) return;
    const timer = setTimeout(() => {
      const next = new Map(told);
      const end = performance.now() + STRETCH_MS;
      for (const row of missing) {
        next.set(row.id, toldApartOf(job, row));
        if (performance.now() > end) break;
      }
      setFound({ key, told: next });
    }, 30);
    return () => clearTimeout(timer);
  }, [job, key, missing, told]);
  return told;
};
