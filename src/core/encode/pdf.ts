/**
 * The PDF writer: pages with one picture each at the sheet’s own dots, neither resampled nor smoothed; a sheet is one
 * page, a print run as many as it has pieces. Section numbers are those of ISO 32000-1:2008.
 *
 * The picture is the same zlib stream as in a PNG of the sheet, with PNG’s row filters (7.4.4.4). The file has what
 * PDF/X-4 (ISO 15930-7) asks of its structure: boxes, output intent, document information in both places, trapping,
 * identifier. It calls itself PDF/X-4 only in CMYK with the printer’s own profile (class prtr) as output intent; else
 * the profile is sRGB (class mntr), or that of the printer’s grey or RGB.
 */
import { joinBytes } from './bytes.ts';
import { combineAdler32, crc32 } from './checksum.ts';
import {
  colourSpace,
  outputIntent,
  profileBytes,
  profileDictionary,
  standardOf,
} from './pdf-colour.ts';
import type { Box, PdfPage } from './pdf-page.ts';
import { sheetPage, userUnit } from './pdf-page.ts';
import {
  crossReferences,
  hexDigits,
  pdfBytes,
  pdfDate,
  pdfDictionary,
  pdfNumbers,
  pdfText,
  reference,
} from './pdf-syntax.ts';
import type { OpenFile, RowWriter, SheetFile, SheetInfo } from './row-writer.ts';
import { channelsOf, checkSheet } from './row-writer.ts';
import { filteredSegment, zlibEnd, zlibHead } from './deflate/segment.ts';
import { xmpPacket } from './xmp.ts';

/** Object numbers, in file order. */
const CATALOG = 1;
const PAGES = 2;
const PROFILE = 5;

/** Of one page: the profile, which all share, lies within the first page's. */
const objectsOf = (page: number) =>
  page === 0
    ? { page: 3, contents: 4, picture: 6, length: 7 }
    : { page: 4 + 4 * page, contents: 5 + 4 * page, picture: 6 + 4 * page, length: 7 + 4 * page };
type PageObjects = ReturnType<typeof objectsOf>;

export const pdfWriter: RowWriter = {
  rowsAbove: 1,
  bandStep: () => 1,
  wrapBand: filteredSegment,
  open: (file) => openPdf(file),
};

/** One page of a file: its sheet, and where it lies on the page; left out: from the sheet’s outline. */
export interface PageOfPdf {
  readonly info: SheetInfo;
  readonly page?: PdfPage;
}

/** Pages are written one after the other: after the bands of each but the last, `next`. */
export interface OpenPdf extends OpenFile {
  next(): Uint8Array<ArrayBuffer>;
}

/**
 * @param page the page’s boxes; left out, from the sheet’s outline.
 * @param largestTabled see `crossReferences`.
 * @throws RangeError that names the field of `info` which PDF cannot hold.
 */
export const openPdf = ({ info }: SheetFile, page?: PdfPage, largestTabled?: number): OpenPdf =>
  openPdfOfPages([{ info, ...(page && { page }) }], info, largestTabled);

/**
 * @param pages at least one
 * @param about what the file says of itself: title, description, time
 */
export const openPdfOfPages = (
  pages: readonly PageOfPdf[],
  about: SheetInfo,
  largestTabled?: number,
): OpenPdf => {
  for (const { info } of pages) checkSheet(info, 2 ** 31 - 1);
  const standard = standardOf(
    about,
    pages.map(({ info, page = sheetPage(info) }) => page),
  );
  const INFO = objectsOf(pages.length - 1).length + 1;
  const METADATA = INFO + 1;
  const places: number[] = [];
  let at = 0;
  const parts: Uint8Array[] = [];
  const put = (bytes: Uint8Array) => {
    parts.push(bytes);
    at += bytes.length;
  };
  /** 7.3.10 Indirect object. Each call takes the next number. */
  const object = (body: string, data?: Uint8Array) => {
    places.push(at);
    put(pdfBytes(`${places.length} 0 obj\n${body}\n`));
    if (data !== undefined) put(joinBytes([pdfBytes('stream\n'), data, pdfBytes('\nendstream\n')]));
    put(pdfBytes('endobj\n'));
  };
  /** The bytes put since the last call. */
  const taken = () => joinBytes(parts.splice(0));

  let number = 0;
  let pictureAt = 0;
  let adler = 1;
  /** Of all pages. */
  let digest = 1;
  let pictureBytes = 0;

  const beginPage = () => {
    const { info, page = sheetPage(info) } = pages[number]!;
    const objects = objectsOf(number);
    object(pageObject(page, objects));
    const contents = pdfBytes(contentsOf(page, info));
    object(pdfDictionary({ Length: String(contents.length) }), contents);
    if (number === 0) {
      const profile = profileBytes(about);
      object(profileDictionary(about, profile.length), profile);
    }
    places.push(at);
    put(pdfBytes(`${objects.picture} 0 obj\n${pictureDictionary(info, objects)}\nstream\n`));
    pictureAt = at;
    adler = 1;
    put(zlibHead());
  };
  const endPage = () => {
    put(zlibEnd(adler));
    const length = at - pictureAt;
    put(pdfBytes('\nendstream\nendobj\n'));
    object(String(length));
    digest = pages.length === 1 ? adler : combineAdler32(digest, adler, length);
    pictureBytes += length;
    number += 1;
  };

  return {
    head: () => {
      // 7.5.2: the version that has UserUnit, and four bytes that mark the file as binary.
      put(Uint8Array.from([...pdfBytes('%PDF-1.6\n%'), 0xe2, 0xe3, 0xcf, 0xd3, 0x0a]));
      object(catalog(METADATA, about));
      const kids = pages.map((_, page) => reference(objectsOf(page).page)).join(' ');
      object(`<< /Type /Pages /Kids [${kids}] /Count ${pages.length} >>`);
      beginPage();
      return taken();
    },
    took: ({ byteLength, adler32, rawLength }) => {
      at += byteLength;
      adler = combineAdler32(adler, adler32, rawLength);
    },
    next: () => {
      endPage();
      beginPage();
      return taken();
    },
    tail: () => {
      endPage();
      const id = identifier(about, digest, pictureBytes);
      object(infoDictionary(about));
      const metadata = metadataOf(about, id, standard);
      object(
        pdfDictionary({
          Type: '/Metadata',
          Subtype: '/XML',
          Length: String(metadata.length),
        }),
        metadata,
      );
      put(crossReferences(places, at, { root: CATALOG, info: INFO, id }, largestTabled));
      return { bytes: taken() };
    },
  };
};

/** 7.7.2. Asks the print dialog not to scale (12.2). */
const catalog = (metadata: number, about: SheetInfo) =>
  pdfDictionary({
    Type: '/Catalog',
    Pages: reference(PAGES),
    Metadata: reference(metadata),
    OutputIntents: `[${outputIntent(about, PROFILE)}]`,
    ViewerPreferences: '<< /PrintScaling /None /DisplayDocTitle true >>',
  });

/** 7.7.3.3. */
const pageObject = (page: PdfPage, { picture, contents }: PageObjects) => {
  const unit = userUnit(page);
  const box = (points: Box) => `[${pdfNumbers(points.map((side) => side / unit))}]`;
  return pdfDictionary({
    Type: '/Page',
    Parent: reference(PAGES),
    MediaBox: box(page.media),
    BleedBox: box(page.bleed),
    TrimBox: box(page.trim),
    UserUnit: unit === 1 ? undefined : String(unit),
    Resources: `<< /XObject << /Sheet ${reference(picture)} >> >>`,
    Contents: reference(contents),
  });
};

/**
 * Share of a dot that the picture stays inside its box on each side. Some renderers round outwards and add one dot
 * where an edge falls exactly between two dots; they then stretch and resample the picture. Measured at the sheet’s
 * own dpi: poppler did so, and with this inset keeps every dot; MuPDF and Ghostscript keep every dot either way. 0.04
 * µm at 720 dpi.
 */
const INSET_DOTS = 0.001;

/** 8.9.5: scales the unit square, which the picture fills, to the picture’s box. */
const contentsOf = (page: PdfPage, { width, height }: SheetInfo) => {
  const unit = userUnit(page);
  const [left, bottom, right, top] = page.picture;
  const insetX = (INSET_DOTS * (right - left)) / width;
  const insetY = (INSET_DOTS * (top - bottom)) / height;
  const matrix = [
    ...[right - left - 2 * insetX, 0, 0, top - bottom - 2 * insetY],
    ...[left + insetX, bottom + insetY],
  ];
  return `q ${pdfNumbers(matrix.map((value) => value / unit))} cm /Sheet Do Q`;
};

/** 8.9.5, 7.4.4.4: rows with PNG’s filters. */
const pictureDictionary = (info: SheetInfo, { length }: PageObjects) => {
  const { width, height } = info;
  return pdfDictionary({
    Type: '/XObject',
    Subtype: '/Image',
    Width: String(width),
    Height: String(height),
    ColorSpace: colourSpace(info, PROFILE),
    BitsPerComponent: '8',
    Interpolate: 'false',
    Filter: '/FlateDecode',
    DecodeParms: `<< /Predictor 15 /Colors ${channelsOf(info)} /BitsPerComponent 8 /Columns ${width} >>`,
    Length: reference(length),
  });
};

/** PDF/X requires a title. */
const titleOf = (info: SheetInfo) =>
  info.title === undefined || info.title === '' ? 'Sheet' : info.title;

const optionalText = (value: string | undefined) =>
  value === undefined || value === '' ? undefined : pdfText(value);

/** 14.3.3. */
const infoDictionary = (info: SheetInfo) => {
  const date = info.writtenAt === undefined ? undefined : pdfDate(info.writtenAt);
  return pdfDictionary({
    Title: pdfText(titleOf(info)),
    Subject: optionalText(info.description),
    Creator: optionalText(info.software),
    Producer: optionalText(info.software),
    CreationDate: date,
    ModDate: date,
    Trapped: '/False',
  });
};

/** 14.3.2: the document information again, and the identifier of the file. */
const metadataOf = (
  info: SheetInfo,
  id: readonly number[],
  standard: Readonly<Record<string, string>>,
) => {
  const digits = hexDigits(id);
  return xmpPacket(
    { ...info, title: titleOf(info) },
    {
      'pdf:Producer': info.software ?? '',
      'pdf:Trapped': 'False',
      'xmpMM:DocumentID': `uuid:${digits.replace(/^(.{8})(.{4})(.{4})(.{4})/, '$1-$2-$3-$4-')}`,
      'xmpMM:RenditionClass': 'default',
      'xmpMM:VersionID': '1',
      ...standard,
    },
  );
};

/**
 * 14.4: 16 bytes from the file’s content, its size and the time of writing; version and variant bits of a custom UUID
 * (RFC 9562, 5.8).
 */
const identifier = (info: SheetInfo, adler: number, length: number): number[] => {
  const { colour, ...rest } = info;
  const words = pdfBytes(JSON.stringify({ ...rest, ...(colour && { colour: colour.name }) }));
  const bytes = new Uint8Array(16);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, adler);
  view.setUint32(4, length >>> 0);
  view.setUint32(8, crc32(words));
  view.setUint32(12, (info.writtenAt?.getTime() ?? 0) >>> 0);
  bytes[6] = (bytes[6]! & 0x0f) | 0x80;
  bytes[8] = (bytes[8]! & 0x3f) | 0x80;
  return Array.from(bytes);
};
