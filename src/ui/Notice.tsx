import type { ReactNode } from 'react';
import styles from './Notice.module.css';

export type NoticeKind = 'info' | 'caution' | 'problem';

const words: Readonly<Record<NoticeKind, string>> = {
  info: 'Note',
  caution: 'Caution',
  problem: 'Problem',
};

/** Each kind has its own shape as well as its own colour and word. */
export const NoticeMark = ({ kind }: { readonly kind: NoticeKind }) => (
  <svg className={styles['mark']} viewBox="0 0 20 20" aria-hidden="true">
    {kind === 'info' && <circle cx="10" cy="10" r="8.5" />}
    {kind === 'caution' && <path d="M10 1.5 19 18H1Z" />}
    {kind === 'problem' && <path d="M6 1.5h8L18.5 6v8L14 18.5H6L1.5 14V6Z" />}
    {kind === 'info' ? (
      <path className={styles['sign']} d="M10 9v6M10 5v1.6" />
    ) : (
      <path
        className={styles['sign']}
        d={kind === 'caution' ? 'M10 7v6M10 14.6v1.4' : 'M10 5v6.4M10 13.4V15'}
      />
    )}
  </svg>
);

interface Props {
  readonly kind: NoticeKind;
  /** Takes the place of "Note", "Caution" or "Problem". */
  readonly title?: ReactNode;
  readonly children: ReactNode;
  /** Said aloud when it comes: for things that happen while the person is at work. */
  readonly announce?: boolean;
  /** Title and text on one line, where it has room: for what stands over a whole bench. */
  readonly inLine?: boolean;
}

export const Notice = ({ kind, title, children, announce = false, inLine = false }: Props) => (
  <div
    className={`${styles['notice']} ${styles[kind]} ${inLine ? styles['inLine'] : ''}`}
    role={announce ? (kind === 'problem' ? 'alert' : 'status') : undefined}
  >
    <NoticeMark kind={kind} />
    <div className={styles['text']}>
      <p className={styles['title']}>{title ?? words[kind]}</p>
      {typeof children === 'string' ? <p>{children}</p> : children}
    </div>
  </div>
);
