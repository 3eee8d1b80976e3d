/** What a drop holds: folders and files as entries, and files where the browser gives no entry. */
export interface Picked {
  readonly entries: readonly FileSystemEntry[];
  readonly files: readonly File[];
}

/** Call it within the drop event: the browser empties `transfer` right afterwards. */
export const pickDrop = (transfer: DataTransfer): Picked => {
  const entries: FileSystemEntry[] = [];
  const files: File[] = [];
  for (const item of transfer.items) {
    if (item.kind !== 'file') continue;
    const entry = item.webkitGetAsEntry();
    const file = entry === null ? item.getAsFile() : null;
    if (entry !== null) entries.push(entry);
    else if (file !== null) files.push(file);
  }
  return { entries, files };
};
