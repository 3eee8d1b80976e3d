/** Saves a file as if the person had followed a link. */
export const download = (href: string, fileName: string): void => {
  const link = document.createElement('a');
  link.href = href;
  link.download = fileName;
  link.click();
};

/** Longer than a browser takes to begin reading what it downloads. */
const READ_WITHIN_MS = 60_000;

export const downloadBlob = (content: Blob, fileName: string): void => {
  const href = URL.createObjectURL(content);
  download(href, fileName);
  setTimeout(() => URL.revokeObjectURL(href), READ_WITHIN_MS);
};
