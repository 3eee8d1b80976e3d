/** A small photo of the print, kept with the trial. */
import { useEffect, useId, useState } from 'react';
import type { Trial } from '../../../job/schema/trial.ts';
import { takePhoto } from '../../../studio/frames/trial-photo.ts';
import { Prose } from '../../../ui/index.ts';
import { useStudio } from '../../studio.ts';

/** Address of the kept photo while it is shown. */
const usePhoto = (photoId: string | undefined): string | undefined => {
  const { frames } = useStudio().disk;
  const [shown, setShown] = useState<{ readonly id: string; readonly href: string }>();
  useEffect(() => {
    if (photoId === undefined) return undefined;
    let href: string | undefined;
    let gone = false;
    frames
      .open(photoId)
      .then((photo) => {
        if (gone) return;
        href = URL.createObjectURL(photo);
        setShown({ id: photoId, href });
      })
      .catch(() => undefined); // Cleared from the browser: the trial's words are still there.
    return () => {
      gone = true;
      if (href !== undefined) URL.revokeObjectURL(href);
    };
  }, [frames, photoId]);
  return shown?.id === photoId ? shown?.href : undefined;
};

export const TrialPhoto = ({ trial, name }: { readonly trial: Trial; readonly name: string }) => {
  const studio = useStudio();
  const id = useId();
  const href = usePhoto(trial.photoId);
  const [refused, setRefused] = useState<string>();
  return (
    <>
      {href !== undefined && <img src={href} alt={`Photo of ${name.toLowerCase()}`} />}
      <div>
        <label htmlFor={id}>
          <Prose as="span">
            {trial.photoId === undefined ? 'Photo of' : 'Another photo of'} {name.toLowerCase()}
          </Prose>
        </label>{' '}
        <input
          id={id}
          type="file"
          accept="image/*"
          onChange={({ target }) => {
            const file = target.files?.[0];
            if (file !== undefined) void takePhoto(studio, trial.id, file).then(setRefused);
          }}
        />
        <p role="status">{refused}</p>
      </div>
    </>
  );
};
