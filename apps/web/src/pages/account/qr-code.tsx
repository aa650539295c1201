import { encode } from 'uqr';
import css from './account.module.css';

/** The light rim that scanners need: four modules (ISO/IEC 18004, 6.3.8). */
const rim = 4;

/** A text as a picture for a camera. */
export function QrCode({ text, label }: { readonly text: string; readonly label: string }) {
  const { data, size } = encode(text, { ecc: 'M', border: rim });
  const path = data
    .flatMap((row, y) =>
      row.flatMap((isDark, x) => (isDark ? [`M${String(x)} ${String(y)}h1v1h-1z`] : [])),
    )
    .join('');
  return (
    <svg
      class={css['qr']}
      viewBox={`0 0 ${String(size)} ${String(size)}`}
      role="img"
      aria-label={label}
      shape-rendering="crispEdges"
    >
      <path d={path} fill="currentColor" />
    </svg>
  );
}
