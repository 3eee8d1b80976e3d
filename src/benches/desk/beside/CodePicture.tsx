import { encodeQR } from 'qr';
import styles from './beside.module.css';

interface Props {
  readonly text: string;
  /** What it is for, to who cannot see it. */
  readonly label: string;
}

/** Light beyond the code's own squares, ISO/IEC 18004: four of them. */
const QUIET = 4;

/** A QR code, black on white in every light: cameras read no other. */
export const CodePicture = ({ text, label }: Props) => {
  const rows = encodeQR(text, 'raw', { border: QUIET, ecc: 'low' });
  const size = rows.length;
  const path = rows
    .flatMap((row, y) => row.map((dark, x) => (dark ? `M${x} ${y}h1v1h-1z` : '')))
    .join('');
  return (
    <svg className={styles['code']} viewBox={`0 0 ${size} ${size}`} role="img" aria-label={label}>
      <rect width={size} height={size} fill="#fff" />
      <path d={path} fill="#000" shapeRendering="crispEdges" />
    </svg>
  );
};
