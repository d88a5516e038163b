import type { Measure } from '../../analysis/exposure/sums.ts';
import {
  type Dimension,
  dimensions,
  type ExposureRequest,
  type ExposureView,
} from '../../analysis/exposure/types.ts';

/** What of a group of lines the pivot shows. */
export type Shown = Extract<Measure, 'value' | 'buildings' | 'lines' | 'areaM2' | 'weightedM2'>;

/** The choices of the view; they outlive a visit to the others. */
export interface ExposureForm {
  readonly rows: Dimension;
  readonly thenBy: Dimension | null;
  readonly columns: Dimension | null;
  readonly shown: Shown;
  readonly currency: ExposureRequest['currency'];
  readonly radiusKm: number;
  readonly referral: ExposureRequest['referral'];
  /** What the curve counts. */
  readonly curve: 'value' | 'buildings';
  /** Index under the pencil of the curve. */
  readonly index: number;
}

/** What every part of the view is a function of. */
export interface ExposureProps {
  readonly view: ExposureView;
  readonly form: ExposureForm;
  readonly onForm: (part: Partial<ExposureForm>) => void;
}

export const firstForm: ExposureForm = {
  rows: 'tier',
  thenBy: null,
  columns: 'region',
  shown: 'value',
  currency: undefined,
  radiusKm: 10,
  referral: { tier: 0, index: null, tierHigh: null, value: null, unknownValue: true },
  curve: 'value',
  index: 25,
};

/** The places of the pivot in which a dimension may stand. */
export type Slot = 'rows' | 'thenBy' | 'columns';

/** The form with a dimension put in a place; what stood there goes where the dimension comes from, so that none stands twice. */
export function withDimension(
  form: ExposureForm,
  slot: Slot,
  dimension: Dimension | null,
): Pick<ExposureForm, Slot> {
  const { rows, thenBy, columns } = form;
  const slots = { rows, thenBy, columns };
  const from = (Object.keys(slots) as Slot[]).find((other) => slots[other] === dimension);
  const next = { ...slots, ...(dimension && from && { [from]: slots[slot] }), [slot]: dimension };
  const free = dimensions.find((one) => one !== next.thenBy && one !== next.columns) ?? 'tier';
  return { ...next, rows: next.rows ?? free };
}

export const radiusLimits = { from: 0.5, to: 50 } as const;

/** The question that these choices put to the analysis. */
export function requestOf({
  rows,
  thenBy,
  columns,
  currency,
  radiusKm,
  referral,
}: ExposureForm): ExposureRequest {
  return {
    rows: thenBy && thenBy !== rows ? [rows, thenBy] : [rows],
    columns: columns ? [columns] : [],
    ...(currency !== undefined && { currency }),
    radiusKm,
    referral,
  };
}
