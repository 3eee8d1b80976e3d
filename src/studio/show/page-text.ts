/** A page of its own that turns the print: one file, nothing fetched, for any browser. */
import type { Ribs } from '../../core/weave/sheet-spec.ts';
import { plain } from '../keep/html.ts';

export interface ShowPage {
  readonly title: string;
  /** Under the print: its size, and from where it is seen. */
  readonly says: string;
  /** Cautions, a sentence each. */
  readonly cautions: readonly string[];
  readonly ribs: Ribs;
  readonly width: number;
  readonly height: number;
  /** Addresses that carry the pictures, from one end of the tilt to the other; an odd number. */
  readonly pictures: readonly string[];
}

const STYLE = `
  :root { color-scheme: light dark; }
  body { margin: 0; padding: 1rem; background: #5e5e5e; color: #fff; font: 1.125rem/1.5 sans-serif; text-align: center; }
  h1 { margin: 0 0 0.75rem; font-size: 1.375rem; }
  img { inline-size: auto; block-size: auto; max-inline-size: 100%; max-block-size: 72vh; cursor: grab; touch-action: none; user-select: none; }
  input { inline-size: min(40rem, 100%); block-size: 2.5rem; }
  button { font: inherit; padding: 0.4rem 1rem; }
  p { max-inline-size: 45rem; margin: 0.5rem auto; }
`;

/** Runs in the saved page: nothing of the studio is there. */
const SCRIPT = `
  const pictures = JSON.parse(document.getElementById('pictures').textContent);
  const lying = document.body.dataset.ribs === 'lying';
  const print = document.getElementById('print');
  const tilt = document.getElementById('tilt');
  const last = pictures.length - 1;
  // Kept decoded, so that no turn waits for a picture.
  const kept = pictures.map((source) => Object.assign(new Image(), { src: source }));
  const show = () => { print.src = kept[Number(tilt.value)].src; };
  const turn = (place) => { tilt.value = String(Math.max(0, Math.min(last, Math.round(place)))); show(); };
  tilt.addEventListener('input', show);
  let held;
  print.addEventListener('pointerdown', (event) => {
    print.setPointerCapture(event.pointerId);
    held = { at: lying ? event.clientY : event.clientX, from: Number(tilt.value) };
  });
  print.addEventListener('pointermove', (event) => {
    if (held === undefined) return;
    const box = print.getBoundingClientRect();
    const moved = (lying ? event.clientY : event.clientX) - held.at;
    turn(held.from + (moved / (lying ? box.height : box.width)) * last);
  });
  for (const end of ['pointerup', 'pointercancel']) print.addEventListener(end, () => { held = undefined; });
  const phone = document.getElementById('phone');
  const follow = () => {
    let level;
    addEventListener('deviceorientation', (event) => {
      const angle = lying ? event.beta : event.gamma;
      if (angle === null) return;
      level ??= angle;
      turn(last / 2 + ((angle - level) / 40) * last);
    });
    phone.hidden = true;
  };
  phone.hidden = !('DeviceOrientationEvent' in window && matchMedia('(pointer: coarse)').matches);
  phone.addEventListener('click', async () => {
    const ask = DeviceOrientationEvent.requestPermission;
    if (ask === undefined || (await ask.call(DeviceOrientationEvent)) === 'granted') follow();
  });
`;

/** What the page may do: show the pictures that it carries, and nothing else. */
const POLICY =
  "default-src 'none'; img-src data:; style-src 'unsafe-inline'; script-src 'unsafe-inline'";

/** @returns a whole HTML document. */
export const showPageText = (page: ShowPage): string => {
  const { title, says, cautions, ribs, width, height, pictures } = page;
  const last = pictures.length - 1;
  // Addresses of pictures hold no character that could end the script they lie in.
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${plain(title)}</title>
<style>${STYLE}</style>
</head>
<body data-ribs="${ribs}">
<h1><bdi>${plain(title)}</bdi></h1>
<img id="print" width="${width}" height="${height}" draggable="false" alt="The print as it turns. Drag over it, or use the slider." src="${pictures[last / 2] ?? ''}">
<p><label>Tilt<br><input id="tilt" type="range" min="0" max="${last}" value="${last / 2}" step="1"></label></p>
<p><button id="phone" hidden>Tilt with the phone</button></p>
<p>${plain(says)}</p>
${cautions.map((caution) => `<p>${plain(caution)}</p>`).join('\n')}
<script id="pictures" type="application/json">${JSON.stringify(pictures)}</script>
<script>${SCRIPT}</script>
</body>
</html>
`;
};
