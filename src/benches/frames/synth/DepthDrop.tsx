import { useStore } from 'zustand';
import { FileButton, FileDrop, Name } from '../../../ui/index.ts';
import { useStudio } from '../../studio.ts';

/** The depth map: chosen, or dropped here rather than among the frames. */
export const DepthDrop = () => {
  const { made } = useStudio();
  const depth = useStore(made.store, (state) => state.depth);
  const take = (file: File): void => {
    made.set({
      depth: { key: made.nextDepthKey(), name: file.name, file },
      stage: { kind: 'idle' },
    });
  };
  return (
    <FileDrop onFile={take}>
      <FileButton
        label={depth === undefined ? 'Choose depth map' : 'Another depth map'}
        inputLabel="Depth map"
        accept=".png,.tif,.tiff,.exr,image/png,image/tiff"
        onFiles={([file]) => take(file)}
      />
      <small>
        {depth === undefined ? (
          'Or drop it here: grey PNG or TIFF, 8 or 16 bit, or OpenEXR.'
        ) : (
          <Name>{depth.name}</Name>
        )}
      </small>
    </FileDrop>
  );
};
