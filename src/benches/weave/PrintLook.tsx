/** The proof in the colours of the paper, and what of them it cannot show. Only for a job that is converted. */
import { useEffect, useState } from 'react';
import { messageOf } from '../../contract/errors.ts';
import { nameInText } from '../../core/names/shown.ts';
import { trimmed } from '../../core/units/format.ts';
import type { ViewState } from '../../state/view.ts';
import type { MissedFrame } from '../../studio/colour/gamut.ts';
import { missedOf } from '../../studio/colour/gamut.ts';
import { Button, ChoiceField, Prose, Row, Stack } from '../../ui/index.ts';
import { KeptFold } from '../desk/KeptFold.tsx';
import { useIsWeaving, useJob, useStudio, useView, useWork } from '../studio.ts';

type Look = ViewState['printLook'];

const looks = [
  { value: 'screen', label: 'On screen' },
  { value: 'print', label: 'In print' },
  { value: 'paper', label: 'On the paper’s white' },
] as const satisfies readonly { value: Look; label: string }[];

const says: Readonly<Record<Look, string>> = {
  screen: 'The colours as your frames have them.',
  print: 'The colours and the black that the profile foretells, white as white as the screen’s.',
  paper: 'The same on the paper’s own white: your eye takes a moment to get used to it.',
};

/** Colours are compared when frames and profile have come to rest. */
const SETTLE_MS = 300;

const useMissed = () => {
  const studio = useStudio();
  const job = useJob();
  const prepared = useWork((work) => work.prepared);
  const busy = useWork((work) => work.preparing !== undefined);
  const weaving = useIsWeaving();
  const [missed, setMissed] = useState<readonly MissedFrame[]>();
  const [fault, setFault] = useState<string>();
  useEffect(() => {
    if (busy || weaving) return undefined;
    const halt = new AbortController();
    const ask = async () => {
      const found = await missedOf(studio, job, halt.signal);
      if (halt.signal.aborted) return;
      setMissed(found);
      setFault(undefined);
    };
    const timer = setTimeout(() => {
      ask().catch((error: unknown) => {
        if (!halt.signal.aborted) setFault(messageOf(error));
      });
    }, SETTLE_MS);
    return () => {
      clearTimeout(timer);
      halt.abort();
    };
  }, [studio, job, prepared, busy, weaving]);
  return { missed, fault };
};

const percent = (share: number): string =>
  share > 0 && share < 0.001 ? 'under 0.1 %' : `${trimmed(100 * share, 1)} %`;

const worstOf = (missed: readonly MissedFrame[]) =>
  missed.reduce((worst, one) => (one.share > worst.share ? one : worst));

const FlipLosses = ({ missed }: { readonly missed: readonly MissedFrame[] }) => {
  const losses = missed.flatMap(({ lost, name }, i) => {
    const next = missed[i + 1];
    return lost === undefined || lost < 0.0005 || next === undefined
      ? []
      : [{ lost, between: `${nameInText(name)} and ${nameInText(next.name)}` }];
  });
  if (losses.length === 0) return null;
  return (
    <>
      <Prose>
        What changes only between colours that the paper cannot show does not change in print:
      </Prose>
      <ul>
        {losses.map(({ between, lost }) => (
          <li key={between}>
            {between}: {percent(lost)} of the picture
          </li>
        ))}
      </ul>
    </>
  );
};

const MissedColours = () => {
  const { missed, fault } = useMissed();
  if (fault !== undefined) return <Prose role="status">{fault}</Prose>;
  if (missed === undefined || missed.length === 0)
    return <Prose role="status">The colours are being compared …</Prose>;
  const worst = worstOf(missed);
  return (
    <Stack gap={2}>
      <Prose role="status">
        {worst.share === 0
          ? 'The paper shows every colour of every frame.'
          : `Marked in magenta: colours that the paper misses by ΔE00 3 or more. Most of them are in ${nameInText(worst.name)}, ${percent(worst.share)} of it.`}
      </Prose>
      <FlipLosses missed={missed} />
      {worst.share > 0 && (
        <KeptFold name="missed colours" summary="Frame by frame">
          <ul>
            {missed.map(({ id, name, share }) => (
              <li key={id}>
                {nameInText(name)}: {percent(share)}
              </li>
            ))}
          </ul>
        </KeptFold>
      )}
    </Stack>
  );
};

export const PrintLook = () => {
  const isConverted = useJob().colour !== undefined;
  const look = useView((view) => view.printLook);
  const warns = useView((view) => view.gamutWarning);
  const set = useView((view) => view.set);
  if (!isConverted) return null;
  return (
    <Stack gap={2}>
      <Row align="end">
        <ChoiceField<Look>
          label="Colours shown"
          choices={looks}
          value={look}
          onChange={(printLook) => set({ printLook })}
        />
        <Button
          aria-pressed={warns && look !== 'screen'}
          onClick={() =>
            set(
              warns && look !== 'screen'
                ? { gamutWarning: false }
                : { gamutWarning: true, printLook: look === 'screen' ? 'print' : look },
            )
          }
        >
          Mark what the paper cannot show
        </Button>
      </Row>
      <Prose>{says[look]}</Prose>
      {warns && look !== 'screen' && <MissedColours />}
    </Stack>
  );
};
