// What the lists of the record hold, and how a line of the bench reads.
import type { ComponentChildren } from 'preact';
import type { BatchRecord, Plan } from '../../../lamella';
import type { Path } from '../../../change';
import { figure } from '../../bench/words';
import { change } from '../paper';
import { papers } from '../../../store';
import type { FieldKind } from './fields';
import type { Lines, ListName } from './Lines';

export interface Shown {
  of: Lines;
  /** What the bench added to the maker's own, a line each. */
  bench: (own: BatchRecord, whole: BatchRecord) => ComponentChildren[];
}

type Line = Record<string, string | undefined>;

/** A list, and how its lines from the bench read. What the bench adds stands behind what the maker wrote. */
function list(of: Lines, read: (line: Line) => ComponentChildren = () => ''): Shown {
  const lines = (record: BatchRecord) => (record[of.list as ListName & keyof BatchRecord] ?? []) as unknown as Line[];
  return { of, bench: (own, whole) => lines(whole).slice(lines(own).length).map(read) };
}

/** A line of the bench, its clock first. */
const timed = (line: Line, ...parts: (string | undefined)[]) =>
  [line.at?.replace(/^\S+ (?=\S)/, ''), ...parts].filter(Boolean).join(' · ');

const AT = ['at', 'When', 'moment'] as const;
const BY = ['by', 'By whom'] as const;

export function listsFor(plan: Plan, lots: BatchRecord['lots']) {
  const ofLots = [['', 'choose one'], ...lots.map((one) => [one.lot, `${one.lot}, ${one.material}`] as const)] as const;
  const scales = plan.scales.map((scale) => [scale.name, scale.name] as const);
  const weighings = list(
    {
      list: 'weighings',
      title: 'Weighings',
      another: 'A weighing',
      fields: [['lot', 'From lot', ofLots], ['mass', 'The scale showed', 'mass'], ['into', 'Into'], ['scale', 'On scale'], AT, BY],
      fresh: { lot: lots[0]?.lot ?? '', mass: '' },
    },
    (line) => timed(line, `${line.lot}: ${figure(line.mass ?? '')}`, line.into && `into ${line.into}`),
  );
  const temperatures = list(
    {
      list: 'temperatures',
      title: 'Temperatures',
      another: 'A temperature',
      fields: [['what', 'Of what: lye, fats, batter, room'], ['value', 'It was', 'temperature'], AT],
      fresh: { what: '', value: '' },
    },
    (line) => timed(line, `${line.what}: ${figure(line.value ?? '')}`),
  );
  const layers = list(
    {
      list: 'layers',
      title: 'Layers as they were poured',
      another: 'A layer',
      fields: [['layer', 'Layer'], ['mass', 'How much', 'mass'], AT],
      fresh: { layer: '' },
    },
    (line) => timed(line, line.layer, line.mass && figure(line.mass)),
  );
  const events = list(
    { list: 'events', title: 'What was seen and done', another: 'Something seen or done', fields: [['what', 'What'], AT], fresh: { what: '' } },
    (line) => timed(line, line.what),
  );
  const deviations = list(
    {
      list: 'deviations',
      title: 'What went otherwise than planned',
      another: 'Something else',
      fields: [['what', 'What went otherwise', 'long'], ['action', 'What was done about it', 'long'], ['by', 'Who decided']],
      fresh: { what: '' },
    },
    (line) => (
      <>
        {line.what}{' '}
        <button
          type="button"
          onClick={() => change(['record', 'deviations'], [...(papers().record.deviations ?? []), { what: line.what ?? '', action: '' }])}
        >
          Write what was done
        </button>
      </>
    ),
  );
  const checks = list({
    list: 'checks',
    title: 'Tests',
    another: 'A test',
    fields: [
      ['check', 'What was tested: weight, free alkali, pH, look'],
      ['result', 'What was found'],
      ['outcome', 'It is', [['pass', 'as it should be'], ['fail', 'not as it should be']]],
      ['layer', 'Layer that was tested', [['', 'the whole bar'], ...plan.layers.map((layer) => [layer.name, layer.name] as const)]],
      ['free_alkali', 'Free caustic alkali, such as 0.02 %'],
      AT,
      BY,
    ],
    fresh: { check: '', result: '', outcome: 'pass' },
  });
  const equipment = list({
    list: 'equipment',
    title: 'Equipment',
    another: 'A piece of equipment',
    fields: [['equipment', 'What it is'], ['cleaned', 'Cleaned', 'moment'], BY],
    fresh: { equipment: '' },
  });
  const scaleChecks = list({
    list: 'scale_checks',
    title: 'Scales held against a known weight',
    another: 'A check of a scale',
    fields: [['scale', 'Scale', scales], ['weight', 'The known weight', 'mass'], ['shown', 'The scale showed', 'mass'], AT],
    fresh: { scale: scales[0]?.[0] ?? '', weight: '' },
  });
  return { weighings, made: [temperatures, layers, events], deviations, tested: [checks, equipment, scaleChecks] };
}

type Group = { title: string; fields: readonly (readonly [Path, string, FieldKind?])[] };

/** What is decided once the bars are cut. */
export const AFTER: Group = {
  title: 'Cure, samples, release',
  fields: [
    [['cure_from'], 'The cure counts from', 'date'],
    [['samples', 'count'], 'Bars that are kept as samples', 'count'],
    [['samples', 'place'], 'Where they are kept'],
    [['release', 'decision'], 'Decided', [['', 'not yet'], ['released', 'it may go'], ['held', 'it waits'], ['rejected', 'it must not go']]],
    [['release', 'by'], 'Decided by'],
    [['release', 'on'], 'Decided on', 'date'],
  ],
};

/** What tells this batch from others. */
export const BESIDE: Group = {
  title: 'Formula, marks, note',
  fields: [
    [['formula'], 'Version of the formula'],
    [['code'], 'Mark on the bar'],
    [['label'], 'Label that went on it'],
    [['note'], 'Note', 'long'],
  ],
};
