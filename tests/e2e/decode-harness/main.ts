/** The page of the decoder harness: hands files given by the test to a worker. */
import type { Answer, Question } from './decode.worker.ts';

const worker = new Worker(new URL('./decode.worker.ts', import.meta.url), { type: 'module' });

const ask = (question: Question): Promise<Answer> =>
  new Promise((resolve, reject) => {
    worker.onmessage = (event: MessageEvent<Answer>) => {
      resolve(event.data);
    };
    worker.onerror = (event) => {
      reject(new Error(event.message));
    };
    worker.postMessage(question);
  });

const decode = async (
  base64: string,
  name: string,
  at: readonly (readonly [number, number])[],
): Promise<Answer> => {
  const bytes = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0)).buffer;
  return ask({ bytes, name, at });
};

declare global {
  interface Window {
    decode: typeof decode;
  }
}
window.decode = decode;
