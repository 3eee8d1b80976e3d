import type { ComponentPropsWithRef, ReactNode } from 'react';
import styles from './Button.module.css';

/** `primary`: the one thing a bench is for. `plain`: the rest. `quiet`: no frame until touched. */
type ButtonLook = 'primary' | 'plain' | 'quiet';

/** For links and file inputs' labels that should look like a button. */
export const buttonClass = (look: ButtonLook = 'plain'): string =>
  `${styles['button']} ${styles[look]}`;

interface Props extends Omit<ComponentPropsWithRef<'button'>, 'disabled'> {
  readonly look?: ButtonLook;
  /**
   * Said as `aria-disabled`, so that the button keeps its focus and can still be found: it does
   * nothing when pressed. Say nearby why.
   */
  readonly off?: boolean;
  readonly children: ReactNode;
}

export const Button = ({ look = 'plain', off = false, className, onClick, ...rest }: Props) => (
  <button
    type="button"
    {...rest}
    className={className === undefined ? buttonClass(look) : `${buttonClass(look)} ${className}`}
    aria-disabled={off || undefined}
    onClick={(event) => {
      if (off) event.preventDefault();
      else onClick?.(event);
    }}
  />
);
