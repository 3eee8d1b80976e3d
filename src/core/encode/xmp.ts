/** The facts of a sheet as an XMP packet (ISO 16684-1), for TIFF and PDF; texts in any language. */
import { plainText, utf8 } from './bytes.ts';
import type { SheetInfo } from './row-writer.ts';

const escaped = (value: string): string =>
  plainText(value)
    // XML 1.0 does not allow these two (2.2).
    .replace(/[\ufffe\uffff]/g, ' ')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;');

const element = (name: string, value: string | undefined, before = '', after = ''): string =>
  value === undefined || value === ''
    ? ''
    : `<${name}>${before}${escaped(value)}${after}</${name}>\n`;

/** 8.5: text in the default language. */
const languages = (name: string, value: string | undefined): string =>
  element(name, value, '<rdf:Alt><rdf:li xml:lang="x-default">', '</rdf:li></rdf:Alt>');

/** ISO 8601, to the second, UTC. */
const xmpDate = (date: Date): string => date.toISOString().replace(/\.\d+Z$/, 'Z');

/** @param more further properties by qualified name, in the namespaces declared below. @returns UTF-8. */
export const xmpPacket = (
  info: SheetInfo,
  more: Readonly<Record<string, string>> = {},
): Uint8Array<ArrayBuffer> => {
  const written = info.writtenAt === undefined ? undefined : xmpDate(info.writtenAt);
  const declared = Object.keys(more).some((name) => name.startsWith('pdfxid:'))
    ? '\n xmlns:pdfxid="http://www.npes.org/pdfx/ns/id/"'
    : '';
  const rest = Object.entries(more).map(([name, value]) => element(name, value));
  return Uint8Array.from(
    utf8(`<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/">
<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about=""
 xmlns:dc="http://purl.org/dc/elements/1.1/"
 xmlns:xmp="http://ns.adobe.com/xap/1.0/"
 xmlns:xmpMM="http://ns.adobe.com/xap/1.0/mm/"
 xmlns:pdf="http://ns.adobe.com/pdf/1.3/"${declared}>
${languages('dc:title', info.title)}${languages('dc:description', info.description)}${element('xmp:CreatorTool', info.software)}${element('xmp:CreateDate', written)}${element('xmp:ModifyDate', written)}${element('xmp:MetadataDate', written)}${rest.join('')}</rdf:Description>
</rdf:RDF>
</x:xmpmeta>
<?xpacket end="r"?>`),
  );
};
