/** Stripes square to the ribs, every second one out of step, and by how much. */
import { BlankMeasure } from '../../../ui/index.ts';
import { Choice } from './Choice.tsx';
import { useCounts, useLength } from './use-counts.ts';

/** A swath of many a print head, to be typed over. */
const USUAL_HEIGHT_MM = 10;

export const StripeFields = () => {
  const [{ stripes }, change] = useCounts();
  const measure = useLength();
  const seen = stripes === 'none' ? undefined : stripes;
  return (
    <>
      <Choice
        label="Stripes square to the ribs"
        value={stripes === undefined || stripes === 'none' ? stripes : 'there'}
        choices={[
          ['none', 'There are none'],
          ['there', 'Every second one is out of step'],
        ]}
        onChange={(next) =>
          void change('stripes', {
            stripes: next === 'there' ? { heightMm: USUAL_HEIGHT_MM, apartMm: 0 } : next,
          })
        }
      />
      {seen !== undefined && (
        <>
          <BlankMeasure
            label="A stripe’s height"
            value={seen.heightMm}
            measure={measure}
            onCommit={(next) =>
              change('stripe height', {
                stripes: { ...seen, heightMm: next ?? USUAL_HEIGHT_MM },
              })
            }
          />
          <BlankMeasure
            label="Head between two stripes’ jumps"
            value={seen.apartMm}
            measure={measure}
            hint="From where one stripe jumps to where its neighbour does."
            onCommit={(next) => change('stripes', { stripes: { ...seen, apartMm: next ?? 0 } })}
          />
        </>
      )}
    </>
  );
};
