/** Whether the sheet's colours stay sRGB, or are converted for a paper. */
import { intents } from '../../core/colour/icc/device-space.ts';
import type { Intent } from '../../core/colour/icc/device-space.ts';
import { nameInText } from '../../core/names/shown.ts';
import { changed } from '../../job/schema/changed.ts';
import type { Job } from '../../job/schema/job.ts';
import { goneWords, intentWords, noCmykInPng } from '../../job/words/colour.ts';
import { colourChoices, inkOf } from '../../studio/colour/choices.ts';
import { ChoiceField, Figure, Notice, Prose, SelectField } from '../../ui/index.ts';
import { useChange, useJob, useShelves, useView } from '../studio.ts';
import { useProfileHere } from './use-profile-here.ts';

const SRGB = 'srgb';
const withColour = (job: Job, colour: Job['colour']): Job => changed(job, { colour });

/** Common practice for coated paper on desktop and sheet-fed presses; no source. */
const USUAL_INK_LIMIT = 300;

const Says = ({ job }: { readonly job: Job }) => {
  const { colour } = job;
  if (colour === undefined)
    return (
      <Prose>
        The file says that it is sRGB; the printer’s driver turns it into ink. Print it as any
        photo.
      </Prose>
    );
  return (
    <Prose>
      The file holds the printer’s own numbers: switch colour management off in the print dialog.
      Pitch strip, ghost wedge and lamp target stay sRGB.
    </Prose>
  );
};

/** What stands in the way, or will spoil the print. */
const Cautions = ({ job }: { readonly job: Job }) => {
  const { colour } = job;
  const fileType = useView((view) => view.fileType);
  const isHere = useProfileHere(colour?.profileId);
  const ink = useShelves(({ shelves }) => inkOf(job, shelves)?.most);
  const limit = useShelves(({ shelves }) => inkOf(job, shelves)?.limit) ?? USUAL_INK_LIMIT;
  if (colour === undefined) return null;
  return (
    <div role="status">
      {isHere === false && (
        <Notice kind="problem" title="The profile is not here">
          <p>
            {goneWords(colour)} <a href="#/workshop">Go to the Workshop</a>
          </p>
        </Notice>
      )}
      {fileType === 'png' && colour.space === 'CMYK' && (
        <Notice kind="problem" title="No CMYK in a PNG">
          <p>{noCmykInPng}</p>
        </Notice>
      )}
      {ink !== undefined && ink > limit && (
        <Notice kind="caution" title={`Up to ${ink} % of ink`}>
          <p>
            The darkest colours ask for {ink} %, more than the {limit} % that this paper takes: they
            may not dry, and stick to the lens. Ask for a profile with a lower total ink limit, or
            set the paper’s own limit in the Workshop.
          </p>
        </Notice>
      )}
    </div>
  );
};

export const ColoursChoice = () => {
  const job = useJob();
  const change = useChange();
  const shelves = useShelves((state) => state.shelves);
  const choices = colourChoices(job, shelves);
  const { colour } = job;
  if (choices.length === 0)
    return (
      <Prose>
        Colours: tagged sRGB. To convert them for your paper, add its printer profile in the{' '}
        <a href="#/workshop">Workshop</a>.
      </Prose>
    );
  const choose = (value: string) => {
    const chosen = choices.find(({ profileId }) => profileId === value);
    change('colours', (now) =>
      withColour(now, chosen && { intent: 'relative', ...now.colour, ...chosen }),
    );
  };
  return (
    <div>
      <SelectField
        label="Colours"
        choices={[
          { value: SRGB, label: 'Tagged sRGB' },
          ...choices.map(({ profileId, paper }) => ({
            value: profileId,
            label: `Converted for ${nameInText(paper)}`,
          })),
        ]}
        value={colour?.profileId ?? SRGB}
        onChange={choose}
      />
      <Says job={job} />
      <Cautions job={job} />
    </div>
  );
};

/** How colours that the paper cannot show are brought into what it can. */
export const IntentChoice = () => {
  const job = useJob();
  const change = useChange();
  const ink = useShelves(({ shelves }) => inkOf(job, shelves)?.most);
  const { colour } = job;
  if (colour === undefined) return null;
  return (
    <div>
      <ChoiceField<Intent>
        label="Rendering intent"
        choices={intents.map((value) => ({ value, label: intentWords[value].name }))}
        value={colour.intent}
        onChange={(intent) =>
          change('rendering intent', (now) =>
            withColour(now, now.colour && { ...now.colour, intent }),
          )
        }
      />
      <Prose>{intentWords[colour.intent].does}</Prose>
      {ink !== undefined && (
        <Figure
          label="Most ink"
          value={`${ink} %`}
          relation="C + M + Y + K of the heaviest colour, whatever the intent"
        >
          Of the profile “{nameInText(colour.profile)}”. More than the paper takes does not dry.
        </Figure>
      )}
    </div>
  );
};
