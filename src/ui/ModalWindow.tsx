import type { ComponentProps, ReactNode } from 'react';
import { useId } from 'react';
import styles from './ModalWindow.module.css';
import { useModal } from './use-modal.ts';

interface Props extends Pick<ComponentProps<'dialog'>, 'onCancel' | 'onClose'> {
  readonly title: ReactNode;
  readonly children: ReactNode;
}

/** A small window over the page, for as long as it is drawn. */
export const ModalWindow = ({ title, children, ...events }: Props) => {
  const id = useId();
  return (
    <dialog ref={useModal()} className={styles['window']} aria-labelledby={id} {...events}>
      <h2 id={id}>{title}</h2>
      {children}
    </dialog>
  );
};
