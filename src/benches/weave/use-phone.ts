/** Tilting the proof by tilting the phone. */
import { useEffect, useState } from 'react';
import { tracedGap } from '../../core/lens/traced.ts';
import { lensOf } from '../../job/facts/sheet.ts';
import { phoneTilt } from '../../preview/turn.ts';
import { useStudio } from '../studio.ts';

/** iOS alone asks the person first. */
interface AsksFirst {
  requestPermission?: () => Promise<'granted' | 'denied'>;
}

/** Only a device that is held can be tilted: a coarse pointer tells it from a desk. */
const canTilt = (): boolean =>
  'DeviceOrientationEvent' in globalThis && matchMedia('(pointer: coarse)').matches;

export interface PhoneTilt {
  readonly offered: boolean;
  readonly on: boolean;
  /** Why it cannot be had, once that is known. */
  readonly refused: string | undefined;
  toggle(): void;
}

export const usePhoneTilt = (): PhoneTilt => {
  const studio = useStudio();
  const [on, setOn] = useState(false);
  const [refused, setRefused] = useState<string>();
  useEffect(() => {
    if (!on) return undefined;
    let straightAt: number | undefined;
    const turned = (event: DeviceOrientationEvent) => {
      const { job } = studio.document.getState();
      const angle = job.ribs === 'upright' ? event.gamma : event.beta;
      if (angle === null) return;
      straightAt ??= angle;
      const lens = lensOf(job);
      const tilt = phoneTilt(angle - straightAt, tracedGap(lens) / lens.pitchMm);
      studio.view.setState({ tilt });
    };
    addEventListener('deviceorientation', turned);
    return () => removeEventListener('deviceorientation', turned);
  }, [studio, on]);
  const start = async () => {
    const answer = await (DeviceOrientationEvent as unknown as AsksFirst)
      .requestPermission?.()
      .catch(() => 'denied' as const);
    if (answer === 'denied')
      return setRefused('The browser does not give this page the phone’s motion sensor.');
    studio.view.setState({ swaying: false });
    setRefused(undefined);
    setOn(true);
  };
  return {
    offered: canTilt(),
    on,
    refused,
    toggle: () => (on ? setOn(false) : void start()),
  };
};
