/** How parts lie together: one below the other, side by side, or in columns as wide as there is room for. */
import type { CSSProperties, HTMLAttributes } from 'react';
import styles from './Layout.module.css';

type Step = 0 | 1 | 2 | 3 | 4 | 5 | 6;

interface Props extends HTMLAttributes<HTMLElement> {
  /** The element it is drawn as; a list goes without its marks. */
  readonly as?: 'div' | 'figure' | 'li' | 'nav' | 'ol' | 'p' | 'section' | 'ul';
  /** Gaps of tokens.css, by number: between rows, then between columns where that is another. */
  readonly gap?: Step | `${Step} ${Step}`;
  readonly align?: 'start' | 'end' | 'stretch';
}

const gapOf = (gap: string): string =>
  gap.replace(/\d/g, (step) => (step === '0' ? '0' : `var(--gap-${step})`));

const Laid = ({
  as: Part = 'div',
  look,
  gap,
  className,
  rules,
  ...rest
}: Omit<Props, 'align'> & { readonly look: string; readonly rules: CSSProperties }) => (
  <Part
    {...rest}
    className={className === undefined ? styles[look] : `${styles[look]} ${className}`}
    style={{ gap: gapOf(`${gap}`), ...rules }}
  />
);

/** One below the other; `align` is along the line. */
export const Stack = ({ gap = 3, align, ...rest }: Props) => (
  <Laid {...rest} look="stack" gap={gap} rules={{ justifyItems: align }} />
);

/** Side by side, in a line below where there is no room; their middles on one line. */
export const Row = ({ gap = 3, align, ...rest }: Props) => (
  <Laid {...rest} look="row" gap={gap} rules={{ alignItems: align }} />
);

interface ColumnsProps extends Props {
  /** Least width of a column, rem. Whatever is marked `data-wide` goes through all of them. */
  readonly least: number;
}

/** Equal columns that fill the width between them. */
export const Columns = ({ gap = '3 4', align, least, ...rest }: ColumnsProps) => (
  <Laid {...rest} look="columns" gap={gap} rules={columnsOf('auto-fit', least, align)} />
);

/** Columns that stay narrow where there are few parts: for typed fields. */
export const Fields = ({ gap = '3 4', align, least, ...rest }: ColumnsProps) => (
  <Laid {...rest} look="columns" gap={gap} rules={columnsOf('auto-fill', least, align)} />
);

const columnsOf = (
  repeat: 'auto-fit' | 'auto-fill',
  least: number,
  align: Props['align'],
): CSSProperties => ({
  gridTemplateColumns: `repeat(${repeat}, minmax(min(100%, ${least}rem), 1fr))`,
  alignItems: align,
});
