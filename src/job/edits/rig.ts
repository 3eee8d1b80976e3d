import { setRig } from '../facts/rig.ts';
import { editsOf } from './edit.ts';

export const changeRig = editsOf('rig', setRig);
