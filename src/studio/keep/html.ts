/** For pages that are saved as files. */

/** Escapes text, so that the person's words are never markup. */
export const plain = (text: string): string =>
  text.replace(/[&<>"']/g, (letter) => `&#${letter.codePointAt(0) ?? 32};`);

/** A file as an address that carries it. */
export const asDataAddress = (file: Blob): Promise<string> =>
  new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => resolve(typeof reader.result === 'string' ? reader.result : '');
    reader.onerror = () => reject(reader.error ?? new Error('The file could not be read.'));
    reader.readAsDataURL(file);
  });
