/** One tile's page to scale, with what is printed around it. */
import { useState } from 'react';
import type { Tiling } from '../../../core/sheet/tiles.ts';
import { layingOrder } from '../../../core/sheet/tiles.ts';
import { isoDay } from '../../../core/units/day.ts';
import { formatLength } from '../../../core/units/format.ts';
import { mm } from '../../../core/units/units.ts';
import { drawnPage } from '../../../job/facts/drawn-page.ts';
import { ROUNDING_MM } from '../../../job/facts/page.ts';
import { tileName, tilePageOf, tilePaperOf } from '../../../job/facts/tiles.ts';
import { Prose, SelectField, Stack, ToScale } from '../../../ui/index.ts';
import { useJob, useUnits } from '../../studio.ts';
import { OnPaper, PrinterMargins } from '../page/OnPaper.tsx';
import pageStyles from '../page/page.module.css';

export const TilePage = ({ tiling }: { readonly tiling: Tiling }) => {
  const job = useJob();
  const units = useUnits();
  const [shown, setShown] = useState('');
  const tiles = layingOrder(tiling);
  const tile = tiles.find((one) => tileName(tiling, one) === shown) ?? tiles[0];
  if (tile === undefined) return null;
  const name = tileName(tiling, tile);
  const { page: paper, allMm } = tilePaperOf(job, tiling);
  const page = drawnPage(tilePageOf(job, tiling, tile, paper, units, isoDay(new Date())), job);
  const say = (lengthMm: number) => formatLength(mm(lengthMm), units);
  return (
    <Stack as="figure">
      {tiles.length > 1 && (
        <SelectField
          label="Page shown"
          choices={tiles.map((one) => {
            const label = tileName(tiling, one);
            return { value: label, label };
          })}
          value={name}
          onChange={setShown}
        />
      )}
      <ToScale
        className={`${pageStyles['paper']} ${pageStyles['still']}`}
        widthMm={page.widthMm}
        heightMm={page.heightMm}
        style={{ aspectRatio: `${page.widthMm} / ${page.heightMm}` }}
        role="img"
        aria-label={`The page of ${name.toLowerCase()}, to scale`}
      >
        <PrinterMargins of={page} margins={paper.marginsMm} />
        <OnPaper page={page} />
      </ToScale>
      <Prose as="figcaption">
        {name}: paper {say(page.widthMm)} × {say(page.heightMm)} {units}, trimmed to{' '}
        {say(page.trim.width)} × {say(page.trim.height)} {units}.{' '}
        {allMm <= ROUNDING_MM
          ? 'Everything fits.'
          : 'Not everything fits: see the findings for what would help.'}
      </Prose>
    </Stack>
  );
};
