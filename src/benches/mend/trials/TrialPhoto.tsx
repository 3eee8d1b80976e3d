/** A small photo of the print, kept with the trial. */
import { useCallback, useId, useState } from 'react';
import type { Trial } from '../../../job/schema/trial.ts';
import { takePhoto } from '../../../studio/frames/trial-photo.ts';
import { Prose } from '../../../ui/index.ts';
import { useAddress } from '../../desk/use-address.ts';
import { useStudio } from '../../studio.ts';

export const TrialPhoto = ({ trial, name }: { readonly trial: Trial; readonly name: string }) => {
  const studio = useStudio();
  const id = useId();
  const { photoId } = trial;
  const { frames } = studio.disk;
  const href = useAddress(
    useCallback(
      async () => (photoId === undefined ? undefined : frames.open(photoId)),
      [frames, photoId],
    ),
  );
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
