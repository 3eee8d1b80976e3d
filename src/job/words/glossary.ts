/**
 * What the terms of the craft in labels mean, by label. One or two sentences each: what it is, and what it is good
 * for or where it comes from. docs/terms.md has the same, word for word (tests/job/words/glossary.test.ts).
 */
const glossary: Readonly<Record<string, string>> = {
  'Rendering intent':
    'What becomes of colours that the paper cannot show. Relative moves them to the edge of what it can and keeps all others: the usual choice.',
  'Total ink limit':
    'The most ink, all four channels together, that the paper takes and dries. Its maker states it; 300 % is common for coated paper.',
  'Lens pitch':
    'Distance from rib to rib of the lens sheet, as sold or scanned: ribs to the inch (LPI), or millimetres. It is nominal until a pitch strip has proved what your sheet and paper really do.',
  'Lens thickness':
    'The whole lens sheet, from the crest of a rib to its flat back, where the print lies. The data sheet gives it; calipers measure it.',
  'Refractive index':
    'How strongly the plastic bends light. The data sheet gives it; acrylic (PMMA) has about 1.49, PETG about 1.57.',
  'Rib radius':
    'Radius of the round crest of one rib, seen from its end. Left out, the lens sheet counts as in focus on its back.',
  Material:
    'The plastic of the lens sheet. Choosing one fills in its refractive index from published tables.',
  'Ribs run':
    'Upright ribs are vertical on the picture and show each eye another view: depth. Lying ribs are horizontal and show both eyes the same view: pictures that change as the print is tilted.',
  'Dots across':
    'The printer’s dots to the inch across the ribs. This direction carries the views, so it decides how many fit under a rib.',
  'Dots along':
    'The printer’s dots to the inch along the ribs. It only decides how fine the picture is in that direction.',
  'Along the carriage':
    'The printer’s own dots to the inch in the direction its head travels, whichever way the ribs run.',
  'Along the feed': 'The printer’s own dots to the inch in the direction the paper moves.',
  'Fed first':
    'The edge of the upright page that enters the printer first. Automatic turns the page where that lays the finer grid across the ribs; the strip and the print must go in alike.',
  'Viewing distance':
    'From the eye to the print, as people will stand. The woven pitch follows it, so that a print for arm’s length looks wrong from across a room.',
  'View slots':
    'Places side by side under each rib; each shows one picture to one direction. With 12 dots under a rib, 12 slots are as many as can differ.',
  'Depth gain':
    'Depth as seen, as a share of true depth. 1 is true to the scene; less flattens it and keeps more of it sharp.',
  'Key plane':
    'The distance that does not move from view to view, and so seems to lie in the print itself. What is nearer stands out, what is further lies behind.',
  Soften:
    'Blurs what moves too far from view to view to stay sharp, so that its edges do not double. 0 % leaves the frames as they are.',
  'Eyes apart': 'From pupil to pupil. 63 mm is the mean of adults; children have less.',
  'Guard slots':
    'View slots between two pictures that show neither, or a mix. They keep one picture from shining into the other where it changes.',
  Recipe:
    'What the view slots show: a row of views for depth, pictures that take turns (a flip), a movement, or depth that also changes.',
  'Leak removed':
    'The share of another picture’s light that is taken out beforehand, so that it does not shine through as a ghost.',
  'Strip centre':
    'Woven pitch of the middle band of the strip. The best guess belongs here: the nominal pitch, or what an earlier strip said.',
  'Strip spread':
    'How far the outermost bands lie from the centre, either way. Wider finds a pitch that is further off, with coarser steps.',
  'Pitch exact to':
    'How well you know the pitch, plus or minus. A nominal one is usually off by a tenth of a line to the inch.',
  'Printer margin': 'Edge of the paper that the printer cannot reach.',
  Bleed:
    'Picture beyond the trim line, so that a cut a little off shows no bare paper. It is woven on in the same pitch.',
  'Samples a lenticule':
    'How many pixels of a frame there are for each rib it is woven into. More than two cost render time and show nothing new.',
  'Scene units':
    'What one unit of your 3D scene is in life. Distances of the cameras are given in it.',
  'Viewing cone':
    'The angle over which the print shows all its views once, before the first comes again.',
  'Zone width':
    'How far the eye can move sideways, at the viewing distance, from the first view to the last.',
  'Woven pitch':
    'The pitch of the print itself: a little more than the lens pitch, because rays reach the outer ribs at a slant.',
  'Dots under a rib':
    'Printed dots in the width of one rib as woven. So many views can differ from each other.',
  Megadots: 'Millions of printed dots in the sheet. Time and file size follow it.',
  'Traced gap':
    'How far the picture under a rib moves for a step of the eye, over the eye’s distance: the lens sheet’s own reach, by a trace through the rib.',
};

export const glossaryTerms: readonly string[] = Object.keys(glossary);

/** Undefined for a label that explains itself. */
export const meaningOf = (label: string): string | undefined =>
  Object.hasOwn(glossary, label) ? glossary[label] : undefined;
