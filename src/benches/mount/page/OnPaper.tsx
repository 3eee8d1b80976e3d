/** What lies on a page, drawn: picture, trim, rails and ink. */
import type { DrawnBox, DrawnPage } from '../../../job/facts/drawn-page.ts';
import styles from './page.module.css';

interface BoxProps extends DrawnBox {
  readonly look: 'bleed' | 'trim' | 'rail' | 'margin';
}

const Box = ({ look, left, top, width, height }: BoxProps) => (
  <rect className={styles[look]} x={left} y={top} width={width} height={height} />
);

interface MarginsProps {
  readonly of: Pick<DrawnPage, 'widthMm' | 'heightMm'>;
  readonly margins: Readonly<Record<'left' | 'top' | 'right' | 'bottom', number>>;
}

/** What the printer reaches. */
export const PrinterMargins = ({ of, margins }: MarginsProps) => {
  const { left, top, right, bottom } = margins;
  return (
    <Box
      look="margin"
      left={left}
      top={top}
      width={Math.max(0, of.widthMm - left - right)}
      height={Math.max(0, of.heightMm - top - bottom)}
    />
  );
};

/** Rails, marks, label and bar. */
export const Around = ({ rails, inkPath }: Pick<DrawnPage, 'rails' | 'inkPath'>) => (
  <>
    {rails.map((rail) => (
      <Box key={`${rail.left} ${rail.top}`} look="rail" {...rail} />
    ))}
    <path className={styles['ink']} d={inkPath} />
  </>
);

export const OnPaper = ({ page }: { readonly page: Omit<DrawnPage, 'widthMm' | 'heightMm'> }) => (
  <>
    <Box look="bleed" {...page.picture} />
    <Box look="trim" {...page.trim} />
    <Around {...page} />
  </>
);
