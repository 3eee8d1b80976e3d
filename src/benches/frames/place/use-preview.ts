/** A frame's picture, large: its thumbnail until that has come. */
import { useEffect, useState } from 'react';
import type { Frame } from '../../../job/schema/job.ts';
import { previewOf } from '../../../studio/frames/preview.ts';
import { useStudio, useThumbnail } from '../../studio.ts';

export const usePreview = (frame: Frame | undefined): string | undefined => {
  const studio = useStudio();
  const thumbnail = useThumbnail(frame);
  const [large, setLarge] = useState<{ readonly id: string; readonly href: string }>();
  const id = frame?.id;
  useEffect(() => {
    if (id === undefined) return undefined;
    const asked = studio.document.getState().job.frames.find((one) => one.id === id);
    if (asked === undefined) return undefined;
    const halt = new AbortController();
    let href: string | undefined;
    void previewOf(studio, asked, halt.signal).then((blob) => {
      if (blob === undefined || halt.signal.aborted) return;
      href = URL.createObjectURL(blob);
      setLarge({ id, href });
    });
    return () => {
      halt.abort();
      if (href !== undefined) URL.revokeObjectURL(href);
    };
  }, [studio, id]);
  return large !== undefined && large.id === id ? large.href : thumbnail;
};
