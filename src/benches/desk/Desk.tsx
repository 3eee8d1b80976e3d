/** The frame around the benches: job sheet at the left, the open bench, findings at the right. */
import { Suspense, useEffect, useRef } from 'react';
import { nameInText } from '../../core/names/shown.ts';
import { besideBench } from '../../job/findings/finding.ts';
import { Button, Meanings, Notice, Row } from '../../ui/index.ts';
import { followTheme } from '../../ui/theme.ts';
import { useDocument, useJobKey, useStudio, useView, useWork } from '../studio.ts';
import { ArrivalStatus, LiveRegion } from './ArrivalStatus.tsx';
import { DropQuestion, FirstAsk } from './Asked.tsx';
import { BenchGuard } from './BenchGuard.tsx';
import { BenchNav } from './BenchNav.tsx';
import styles from './Desk.module.css';
import { Docket } from './Docket.tsx';
import { DropAnywhere } from './DropAnywhere.tsx';
import { FindingsJump, FindingsPanel } from './FindingsPanel.tsx';
import { JobFileStatus } from './job-file/JobFileStatus.tsx';
import { JobsHost, LookOnlyBanner, NoRoomNotice } from './job-list/JobsHost.tsx';
import { LostPart } from './LostPart.tsx';
import { Masthead, ThemeChoice } from './Masthead.tsx';
import { NewVersion } from './NewVersion.tsx';
import { TheWay } from './TheWay.tsx';
import { FilesUnderWay } from './FilesUnderWay.tsx';
import { useBench } from './use-bench.ts';
import { useFindings } from './use-findings.ts';
import { useGlossary } from './use-glossary.ts';
import { useFirstPartShown } from './use-parts.ts';
import { useWay } from './use-way.ts';

/** The bench's name takes the focus when another bench is opened, never on the first view. */
const useHeadingFocus = (name: string) => {
  const heading = useRef<HTMLHeadingElement>(null);
  const shown = useRef(name);
  useEffect(() => {
    if (shown.current === name) return;
    shown.current = name;
    scrollTo({ top: 0 });
    // Undo opens benches too, and is pressed again and again.
    if (document.activeElement?.closest('[data-keeps-focus]')) return;
    heading.current?.focus({ preventScroll: true });
  }, [name]);
  return heading;
};

const DeskNotices = () => {
  const { deskNotice, deskNews } = useWork((work) => work);
  const { setState: set } = useStudio().work;
  const notice = (kind: 'caution' | 'info', message: string, dismiss: () => void) => (
    <div className={styles['notice']}>
      <Notice kind={kind} title="To know" announce inLine>
        <Row gap="2 4">
          <p>{message}</p>
          <Button look="quiet" onClick={dismiss}>
            Dismiss
          </Button>
        </Row>
      </Notice>
    </div>
  );
  return (
    <>
      {deskNotice !== undefined &&
        notice('caution', deskNotice, () => set({ deskNotice: undefined }))}
      {deskNews !== undefined && notice('info', deskNews, () => set({ deskNews: undefined }))}
    </>
  );
};

export const Desk = () => {
  const bench = useBench();
  const heading = useHeadingFocus(bench.name);
  const theme = useView((view) => view.theme);
  const jobName = useDocument((state) => state.job.name);
  const jobKey = useJobKey();
  const findings = useFindings();
  const found = useFirstPartShown(bench.name) ? besideBench(findings, bench.name) : findings;
  const way = useWay();
  const meaningOf = useGlossary();
  useEffect(() => followTheme(theme), [theme]);
  useEffect(() => {
    document.title = `${bench.label} · ${nameInText(jobName)} · Tiltloom`;
  }, [bench, jobName]);

  const skip = () => heading.current?.focus();
  return (
    <Meanings value={meaningOf}>
      <DropAnywhere className={styles['desk']}>
        <button type="button" className={styles['skip']} onClick={skip}>
          Skip to the bench
        </button>
        <Masthead />
        <BenchNav current={bench} marks={way?.marks ?? {}} />
        <TheWay bench={bench} way={way?.step} />
        <FirstAsk />
        <FilesUnderWay bench={bench.name} />
        <LookOnlyBanner />
        <NoRoomNotice />
        <DeskNotices />
        <NewVersion />
        <LostPart />
        <JobFileStatus />
        <ArrivalStatus />
        <div className={styles['board']}>
          <Docket />
          <main className={styles['bench']}>
            <header className={styles['head']}>
              <h1 ref={heading} tabIndex={-1}>
                {bench.label}
              </h1>
              <p>{bench.purpose}</p>
            </header>
            <BenchGuard key={`${bench.name} ${jobKey}`} benchLabel={bench.label}>
              <Suspense fallback={<p className={styles['opening']}>Opening the bench …</p>}>
                <bench.Page />
              </Suspense>
            </BenchGuard>
            <FindingsJump found={found} />
          </main>
          <FindingsPanel found={found} bench={bench} />
        </div>
        <footer className={styles['foot']}>
          <div className={styles['theme']}>
            <ThemeChoice />
          </div>
          {/* Made by the build (tests/settings/licences.ts) and kept offline with the rest. */}
          <a href="./licences.html" target="_blank">
            Licences of Tiltloom and of what is in it
          </a>
        </footer>
        <JobsHost />
        <DropQuestion />
        <LiveRegion />
      </DropAnywhere>
    </Meanings>
  );
};
