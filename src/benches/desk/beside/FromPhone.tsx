/** A picture from the phone beside the desk: the two find each other by codes, and nothing goes over a server. */
import { useEffect, useRef, useState } from 'react';
import { useStore } from 'zustand';
import { isThisComputer, phoneAddress, readAddress } from '../../../studio/beside/address.ts';
import { unmarked } from '../../../studio/beside/camera.ts';
import { createDeskSide } from '../../../studio/beside/desk-side.ts';
import { BlankField, Button, ModalWindow, Notice, ProgressBar } from '../../../ui/index.ts';
import { useView } from '../../studio.ts';
import styles from './beside.module.css';
import { CodePicture } from './CodePicture.tsx';
import { CodeReader } from './CodeReader.tsx';

type Side = ReturnType<typeof createDeskSide>;

const useDeskSide = (onFile: (file: File) => void): Side | undefined => {
  const [side, setSide] = useState<Side>();
  const take = useRef(onFile);
  useEffect(() => {
    take.current = onFile;
  });
  useEffect(() => {
    const made = createDeskSide((file) => take.current(file));
    setSide(made);
    return () => made.end();
  }, []);
  return side;
};

const here = () => location.href.split('#')[0] ?? '';

/** The code with the address it leads to, which is the page's own where a phone can open that. */
const DeskCode = ({ code }: { readonly code: string }) => {
  const typed = useView((view) => view.phoneReaches);
  const set = useView((view) => view.set);
  const onlyHere = isThisComputer(here());
  const base = onlyHere ? readAddress(typed) : here();
  return (
    <>
      {onlyHere && (
        <>
          <Notice kind="info" title="This address is on this computer alone">
            A phone opens the studio by this computer’s name or number in your network. Serve it
            there (README: “On another device”), and type that address here.
          </Notice>
          <BlankField
            label="Address of the studio for the phone"
            value={typed}
            hint="Such as 192.168.1.20:4173"
            onCommit={(text) => {
              if (text !== '' && readAddress(text) === undefined) return 'This is not an address.';
              set({ phoneReaches: text });
              return undefined;
            }}
          />
        </>
      )}
      {base !== undefined && (
        <>
          <CodePicture text={phoneAddress(base, code)} label="Code for the phone’s camera" />
          <details>
            <summary>The same as an address</summary>
            <code className={styles['address']}>{phoneAddress(base, code)}</code>
          </details>
        </>
      )}
    </>
  );
};

const Steps = ({ side, title }: { readonly side: Side; readonly title: string }) => {
  const now = useStore(side.store, (state) => state.now);
  const answer = (text: string) => void side.answer(unmarked(text.trim()));
  switch (now.stage) {
    case 'making':
      return <p role="status">Making the code …</p>;
    case 'showing':
      return (
        <ol className={styles['steps']}>
          <li>
            <p>Point the phone’s camera at this code and open what it offers.</p>
            <DeskCode code={now.code} />
          </li>
          <li>
            <p>The phone then shows a code of its own. Hold it before this computer’s camera.</p>
            <CodeReader onCode={answer} />
            {now.refused !== undefined && (
              <Notice kind="problem" announce>
                {now.refused}
              </Notice>
            )}
          </li>
        </ol>
      );
    case 'finding':
      return <p role="status">The two devices are finding each other …</p>;
    case 'linked':
      return (
        <>
          <p role="status">The phone is linked. {title} on the phone.</p>
          {now.share !== undefined && (
            <ProgressBar
              label="Coming from the phone"
              done={Math.round(now.share * 100)}
              total={100}
              of="hundredths"
            />
          )}
        </>
      );
    case 'failed':
      return (
        <Notice kind="problem" announce>
          {now.message}
        </Notice>
      );
  }
};

interface Props {
  /** What to do on the phone, such as "Take a photo". */
  readonly title: string;
  onFile(file: File): void;
  onClose(): void;
}

/** Closes by itself once a picture came: what becomes of it is seen behind. */
const FromPhone = ({ title, onFile, onClose }: Props) => {
  const side = useDeskSide((file) => {
    onFile(file);
    onClose();
  });
  return (
    <ModalWindow title="A photo from your phone" onClose={onClose}>
      <p className={styles['soft']}>
        Both must be in the same network. The picture goes straight from one to the other; no server
        sees it.
      </p>
      {side !== undefined && <Steps side={side} title={title} />}
      <p>
        <Button onClick={onClose}>Close</Button>
      </p>
    </ModalWindow>
  );
};

export default FromPhone;
