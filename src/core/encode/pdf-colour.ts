/**
 * What the numbers of a PDF's pictures mean: sRGB, or the printer's own with its profile. Section numbers are those of
 * ISO 32000-1:2008.
 */
import { userUnit } from './pdf-page.ts';
import type { PdfPage } from './pdf-page.ts';
import { pdfDictionary, pdfText, reference } from './pdf-syntax.ts';
import type { SheetInfo } from './row-writer.ts';
import { channelsOf } from './row-writer.ts';
import { srgbProfile } from './srgb-profile.ts';

type Colour = Pick<SheetInfo, 'colour'>;

export const profileBytes = ({ colour }: Colour): Uint8Array => colour?.profile ?? srgbProfile();

const alternates = { 1: '/DeviceGray', 3: '/DeviceRGB', 4: '/DeviceCMYK' } as const;

/** 8.6.5.5: of the stream that holds the profile. */
export const profileDictionary = (about: Colour, length: number): string => {
  const channels = channelsOf(about);
  return pdfDictionary({
    N: String(channels),
    Alternate: alternates[channels],
    Length: String(length),
  });
};

/**
 * 8.9.5: the picture's. CMYK is the device's own, which the output intent describes: PDF/X-4 (ISO 15930-7) forbids to
 * name the same profile twice.
 */
export const colourSpace = (about: Colour, profile: number): string =>
  about.colour?.space === 'CMYK' ? '/DeviceCMYK' : `[/ICCBased ${reference(profile)}]`;

/** 14.11.5. */
export const outputIntent = ({ colour }: Colour, profile: number): string =>
  pdfDictionary({
    Type: '/OutputIntent',
    S: '/GTS_PDFX',
    OutputConditionIdentifier: pdfText(colour?.name ?? 'sRGB IEC61966-2.1'),
    RegistryName: colour === undefined ? pdfText('http://www.color.org') : undefined,
    Info: pdfText(
      colour?.name ?? 'sRGB IEC61966-2.1: the printer and its driver are not known to this file',
    ),
    DestOutputProfile: reference(profile),
  });

/**
 * What PDF/X-4 asks for beside that: it needs a printer's profile and pages in plain points, and is claimed for CMYK
 * alone, which presses take.
 */
export const standardOf = (
  { colour }: Colour,
  pages: readonly PdfPage[],
): Readonly<Record<string, string>> =>
  colour?.space === 'CMYK' &&
  colour.use === 'printer' &&
  pages.every((page) => userUnit(page) === 1)
    ? { 'pdfxid:GTS_PDFXVersion': 'PDF/X-4' }
    : {};
