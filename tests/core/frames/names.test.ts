import { describe, expect, test } from 'vitest';
import { sharedName } from '../../../src/core/frames/names.ts';

describe('files are called together', () => {
  test.each([
    ['their folder', ['lighthouse/view_1.png', 'lighthouse/view_2.png'], 'lighthouse'],
    ['the innermost folder they share', ['shop/terrace/a.png', 'shop/terrace/b.png'], 'terrace'],
    [
      'the folder above one that names no picture',
      ['terrace/frames/1.png', 'terrace/frames/2.png'],
      'terrace',
    ],
    ['their zip', ['glasshouse.zip/1.png', 'glasshouse.zip/2.png'], 'glasshouse'],
    ['what their names begin with', ['kingfisher_01.png', 'kingfisher_02.png'], 'kingfisher'],
    [
      'that, without the first digit they share',
      ['kingfisher_10.png', 'kingfisher_11.png'],
      'kingfisher',
    ],
    ['a lone file’s name', ['Fog at dawn.exr'], 'Fog at dawn'],
    ['a lone file’s name without its number', ['pond (3).png'], 'pond'],
    ['nothing where they share nothing', ['near.png', 'far.png'], ''],
    ['nothing where they are numbers', ['01.png', '02.png'], ''],
    ['nothing where folder and names are plain', ['frames/1.png', 'frames/2.png'], ''],
    ['nothing where there are none', [], ''],
  ] as const)('%s', (_, paths, name) => {
    expect(sharedName(paths)).toBe(name);
  });
});
