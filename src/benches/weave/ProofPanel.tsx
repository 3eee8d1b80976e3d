/** The tilt proof: the print as an eye would see it, and everything that turns it. */
import type { KeyboardEvent } from 'react';
import { nameInText } from '../../core/names/shown.ts';
import { sayLength } from '../../core/units/format.ts';
import { dragTilt, keyTilt } from '../../preview/turn.ts';
import type { ProofTrouble } from '../../studio/proof/tilt-proof.ts';
import { Button, ChoiceField, Panel, Prose, Row, useGrip } from '../../ui/index.ts';
import { CautionOnce } from '../desk/CautionOnce.tsx';
import { TiltSlider, turnTo } from '../desk/TiltSlider.tsx';
import { useJob, useStudio, useUnits, useView, useWork } from '../studio.ts';
import { WeaveSheet } from './SheetPanel.tsx';
import { PrintLook } from './PrintLook.tsx';
import { ShowPart } from './show/ShowPart.tsx';
import { TrimLine, TrimWords } from './TrimLine.tsx';
import { usePhoneTilt } from './use-phone.ts';
import { useProof } from './use-proof.ts';
import { useLessMotion, useSway } from './use-sway.ts';
import styles from './weave.module.css';

const troubles: Readonly<Record<ProofTrouble, string>> = {
  'card-lost':
    'The graphics card no longer draws the proof, so it is drawn without it: the same picture, turning more slowly. Reload the page to try the card again.',
  'not-drawn':
    'The proof is no longer drawn: the part of the studio that draws it stopped three times. Reload the page; a sheet is woven all the same.',
};

const Picture = () => {
  const studio = useStudio();
  const job = useJob();
  const { box, trouble } = useProof();
  const lying = job.ribs === 'lying';
  const { handlers } = useGrip({
    take: () => studio.view.getState().tilt,
    pull: (from, { dx, dy, width, height }) =>
      turnTo(studio, dragTilt(from, lying ? dy : dx, lying ? height : width)),
    cancel: (from) => turnTo(studio, from),
  });
  const onKeyDown = (event: KeyboardEvent) => {
    handlers.onKeyDown(event);
    const tilt = keyTilt(studio.view.getState().tilt, event.key, lying, job.viewSlots);
    if (tilt === undefined) return;
    event.preventDefault();
    turnTo(studio, tilt);
  };
  return (
    <>
      <div className={styles['proof']}>
        <div
          ref={box}
          className={lying ? `${styles['picture']} ${styles['lying']}` : styles['picture']}
          role="img"
          aria-label={`Tilt proof of ${nameInText(job.name)}. Drag or press arrow keys to walk past it.`}
          tabIndex={0}
          data-testid="tilt-proof"
          {...handlers}
          onKeyDown={onKeyDown}
        />
        <TrimLine />
      </div>
      <TrimWords />
      <Prose role="status">{trouble === undefined ? undefined : troubles[trouble]}</Prose>
    </>
  );
};

const Turning = () => {
  const swaying = useView((view) => view.swaying);
  const units = useUnits();
  const bothEyes = useView((view) => view.bothEyes);
  const set = useView((view) => view.set);
  const lying = useJob().ribs === 'lying';
  const still = useLessMotion();
  const phone = usePhoneTilt();
  useSway();
  return (
    <>
      <Row>
        <Button off={still} onClick={() => set({ swaying: !swaying })}>
          {swaying ? 'Stop swaying' : 'Sway'}
        </Button>
        <Button aria-pressed={bothEyes} onClick={() => set({ bothEyes: !bothEyes })}>
          Both eyes, red and cyan
        </Button>
        {phone.offered && (
          <Button onClick={phone.toggle}>
            {phone.on ? 'Stop tilting with the phone' : 'Tilt with the phone'}
          </Button>
        )}
      </Row>
      {still && <Prose>No swaying: this computer asks for less motion.</Prose>}
      {phone.refused !== undefined && <Prose>{phone.refused}</Prose>}
      {bothEyes && (
        <Prose>
          {lying
            ? 'Under lying ribs both eyes see the same view: there is no depth to show.'
            : `Red glass over the left eye, eyes ${sayLength(63, units)} apart at the viewing distance. Stop if it strains your eyes.`}
        </Prose>
      )}
    </>
  );
};

/** Only while Mend was told of a print: there is no other that could be shown. */
const WhichPrint = () => {
  const isSeen = useJob().seeing !== undefined;
  const shows = useView((view) => view.proofShows);
  const set = useView((view) => view.set);
  if (!isSeen) return null;
  return (
    <ChoiceField
      label="Print shown"
      choices={[
        { value: 'planned', label: 'As planned' },
        { value: 'printed', label: 'As printed' },
      ]}
      value={shows}
      onChange={(proofShows) => set({ proofShows })}
    />
  );
};

const Preparing = () => {
  const preparing = useWork((work) => work.preparing);
  return (
    <Prose as="span" role="status">
      {preparing !== undefined && `Preparing frames: ${preparing.done} of ${preparing.total}`}
    </Prose>
  );
};

export const ProofPanel = () => (
  <Panel title="Tilt proof" actions={<Preparing />}>
    <Picture />
    <TiltSlider />
    <WeaveSheet />
    <Turning />
    <WhichPrint />
    <PrintLook />
    <ShowPart />
    <CautionOnce bench="weave" kinds={['flashing', 'depth']}>
      Sway keeps to no more than three flashes in any one second; a hand can go faster.
    </CautionOnce>
  </Panel>
);
