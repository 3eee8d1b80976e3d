/**
 * A lens bench for the tests: what an eye sees when it looks at a print through an arc-ribbed sheet.
 *
 * Written apart from `src`: it imports nothing from there and knows neither the optical gap nor the
 * woven pitch nor the order under a rib. All it has is Snell's law in vector form, the arc of a
 * rib and a flat print, so whatever the weave gets right here it gets right for a reason of its own.
 *
 * The plane across the ribs: `x` to the right from the middle of the print, `z` from the eye into
 * the print. Rib crests touch z = 0, the print lies at z = thickness, the eye at (eye, −distance).
 * Along the ribs the sheet has no power, so every line of the print is looked at by itself.
 */

export interface BenchLens {
  /** Pitch of the lens itself: rib k has its middle at k × pitch. */
  readonly pitchMm: number;
  /** Crest to print. */
  readonly thicknessMm: number;
  readonly radiusMm: number;
  readonly index: number;
}

/** How the sheet was laid on the print. Left out: squarely, rib 0 over the middle, pitch as stated. */
export interface Laid {
  /** The whole sheet moved across the ribs, to the right positive. */
  readonly shiftMm?: number;
  /** True pitch over stated pitch. */
  readonly pitchScale?: number;
}

export interface Eye {
  /** Across the ribs, from the middle of the print; to the right (lying ribs: down) positive. */
  readonly acrossMm: number;
  readonly distanceMm: number;
}

/** A printed sheet. `rgb` is row-major, sRGB-encoded, 8 bit, length width × height × 3. */
export interface Print {
  readonly rgb: Uint8Array;
  readonly widthDots: number;
  readonly heightDots: number;
  readonly acrossDpi: number;
  /** How the lens on top is turned, whatever the print was woven for. */
  readonly lensRibs: 'upright' | 'lying';
}

/** One value a rib and a line of dots: linear light 0 … 1, index ((line × ribs) + rib) × 3 + channel. */
export interface Seen {
  readonly firstRib: number;
  readonly ribs: number;
  readonly lines: number;
  readonly light: Float64Array;
}

/** One ray: where it meets the arc, and where on the print it ends. */
export interface Landing {
  readonly printMm: number;
  /** Direction from the eye to the arc, atan of sideways over ahead. */
  readonly angleRad: number;
  /** False where the arc faces away from the eye. */
  readonly met: boolean;
}

/** Refracts unit vector d at a surface with unit normal n (towards the light), from index 1 to `index`. */
const refract = (d: readonly [number, number], n: readonly [number, number], index: number) => {
  const eta = 1 / index;
  const cosIn = -(d[0] * n[0] + d[1] * n[1]);
  const cosOut = Math.sqrt(1 - eta * eta * (1 - cosIn * cosIn));
  const along = eta * cosIn - cosOut;
  return { dx: eta * d[0] + along * n[0], dz: eta * d[1] + along * n[1], cosIn };
};

/** Follows the ray from the eye to the point `offCrestMm` beside a crest, and on to the print. */
export const traceRay = (
  lens: BenchLens,
  crestMm: number,
  offCrestMm: number,
  eye: Eye,
): Landing => {
  const depth = Math.sqrt(lens.radiusMm ** 2 - offCrestMm ** 2);
  const x = crestMm + offCrestMm;
  const z = lens.radiusMm - depth;
  const aside = x - eye.acrossMm;
  const ahead = z + eye.distanceMm;
  const length = Math.hypot(aside, ahead);
  const normal = [offCrestMm / lens.radiusMm, -depth / lens.radiusMm] as const;
  const { dx, dz, cosIn } = refract([aside / length, ahead / length], normal, lens.index);
  return {
    printMm: x + (dx / dz) * (lens.thicknessMm - z),
    angleRad: Math.atan2(aside, ahead),
    met: cosIn > 0,
  };
};

/** A slender bundle: the stretch of print it ends on, and how much of the rib's width it fills. */
interface Bundle {
  readonly from: number;
  readonly to: number;
  readonly share: number;
}

/** The bundles that fill one rib, shares summing to 1 by the angle each fills at the eye. */
export const bundlesOfRib = (lens: BenchLens, crestMm: number, eye: Eye, count = 32): Bundle[] => {
  const rays = Array.from({ length: count + 1 }, (_, i) =>
    traceRay(lens, crestMm, (i / count - 0.5) * lens.pitchMm, eye),
  );
  const bundles: Bundle[] = [];
  for (let i = 0; i < count; i += 1) {
    const a = rays[i]!;
    const b = rays[i + 1]!;
    const share = b.angleRad - a.angleRad;
    if (a.met && b.met && share > 0)
      bundles.push({
        from: Math.min(a.printMm, b.printMm),
        to: Math.max(a.printMm, b.printMm),
        share,
      });
  }
  const whole = bundles.reduce((sum, bundle) => sum + bundle.share, 0);
  return bundles.map((bundle) => ({ ...bundle, share: bundle.share / whole }));
};

/** sRGB decoding, IEC 61966-2-1, written out here so that the bench leans on nothing. */
const decode = (code: number): number => {
  const encoded = code / 255;
  return encoded <= 0.04045 ? encoded / 12.92 : ((encoded + 0.055) / 1.055) ** 2.4;
};
const LIGHT = Float64Array.from({ length: 256 }, (_, code) => decode(code));

/** Light heaped up from the first dot of a line: entry j × 3 + channel is the sum over dots before j. */
const heapUp = (print: Print, line: number, dots: number): Float64Array => {
  const upright = print.lensRibs === 'upright';
  const heap = new Float64Array((dots + 1) * 3);
  for (let dot = 0; dot < dots; dot += 1) {
    const at = (upright ? line * print.widthDots + dot : dot * print.widthDots + line) * 3;
    for (let c = 0; c < 3; c += 1)
      heap[(dot + 1) * 3 + c] = heap[dot * 3 + c]! + LIGHT[print.rgb[at + c]!]!;
  }
  return heap;
};

/** The heap read at a fractional dot. */
const heapAt = (heap: Float64Array, dot: number, c: number): number => {
  const whole = Math.min(Math.floor(dot), heap.length / 3 - 2);
  const low = heap[whole * 3 + c]!;
  return low + (heap[(whole + 1) * 3 + c]! - low) * (dot - whole);
};

/** Looks at a print through a lens sheet: every rib all of whose rays end on the print, every line. */
export const lookThrough = (lens: BenchLens, print: Print, eye: Eye, laid: Laid = {}): Seen => {
  const upright = print.lensRibs === 'upright';
  const dots = upright ? print.widthDots : print.heightDots;
  const lines = upright ? print.heightDots : print.widthDots;
  const dotMm = 25.4 / print.acrossDpi;
  const sheet = { ...lens, pitchMm: lens.pitchMm * (laid.pitchScale ?? 1) };
  const reach = Math.ceil((dots * dotMm) / 2 / sheet.pitchMm) + 1;
  const ribs: { rib: number; bundles: Bundle[] }[] = [];
  for (let rib = -reach; rib <= reach; rib += 1) {
    const bundles = bundlesOfRib(sheet, rib * sheet.pitchMm + (laid.shiftMm ?? 0), eye).map(
      (b) => ({
        from: b.from / dotMm + dots / 2,
        to: b.to / dotMm + dots / 2,
        share: b.share,
      }),
    );
    if (bundles.every((b) => b.from >= 0 && b.to <= dots)) ribs.push({ rib, bundles });
  }
  const light = new Float64Array(ribs.length * lines * 3);
  for (let line = 0; line < lines; line += 1) {
    const heap = heapUp(print, line, dots);
    ribs.forEach(({ bundles }, i) => {
      for (const { from, to, share } of bundles) {
        // A bundle in perfect focus ends on a point: widen it to a thousandth of a dot.
        const width = Math.max(to - from, 1e-3);
        const end = Math.min(from + width, dots);
        for (let c = 0; c < 3; c += 1)
          light[(line * ribs.length + i) * 3 + c]! +=
            (share * (heapAt(heap, end, c) - heapAt(heap, end - width, c))) / width;
      }
    });
  }
  return { firstRib: ribs[0]?.rib ?? 0, ribs: ribs.length, lines, light };
};
