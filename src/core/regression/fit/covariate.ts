/** One column of a regression, with the name its coefficient is given. */
export interface Covariate {
  readonly name: string;
  readonly values: ArrayLike<number>;
}

/** Rows laid out at a time, so that the row is still in the cache when the next column comes. */
const BLOCK = 1024;

/** What centres the columns and scales them to a standard deviation of one: steps are then alike in all of them. */
export interface Scales {
  readonly rows: number;
  readonly size: number;
  readonly names: readonly string[];
  readonly centre: Float64Array;
  /** Standard deviation; zero for a constant column, which is left unscaled. */
  readonly scale: Float64Array;
}

export interface Design extends Scales {
  /** The columns centred and scaled, row after row. */
  readonly cells: Float64Array;
}

/** RangeError for a column of another length or with a value that is not a finite number: mend it or drop the rows. */
export function scalesOf(covariates: readonly Covariate[], rows: number): Scales {
  const size = covariates.length;
  const centre = new Float64Array(size);
  const scale = new Float64Array(size);
  for (const [j, { name, values }] of covariates.entries()) {
    if (values.length !== rows) {
      throw new RangeError(`Covariate ${name} has ${values.length} values for ${rows} rows; give one for each.`);
    }
    // about the first value, so that one pass will do and a constant column has no spread at all
    const first = rows > 0 ? (values[0] as number) : 0;
    let sum = 0;
    let square = 0;
    for (let i = 0; i < rows; i += 1) {
      const value = values[i] as number;
      if (!Number.isFinite(value)) {
        throw new RangeError(`Covariate ${name} is ${value} in row ${i + 1}; drop or complete the row first.`);
      }
      const away = value - first;
      sum += away;
      square += away * away;
    }
    const shift = rows > 0 ? sum / rows : 0;
    const mean = first + shift;
    const deviation = Math.sqrt(Math.max(0, square / Math.max(1, rows) - shift * shift));
    centre[j] = mean;
    scale[j] = deviation > 1e-12 * Math.abs(mean) ? deviation : 0;
  }
  return { rows, size, names: covariates.map((covariate) => covariate.name), centre, scale };
}

/** Lays the columns out, in the order of rows given or as they stand. RangeError as `scalesOf`. */
export function designOf(covariates: readonly Covariate[], rows: number, order?: Uint32Array): Design {
  const scales = scalesOf(covariates, rows);
  const cells = cellsOf(covariates, scales);
  if (order !== undefined) putInOrder(cells, scales.size, order);
  return { ...scales, cells };
}

/** The columns centred and scaled, row after row; with `intercept` each row begins with a one. */
export function cellsOf(
  covariates: readonly Covariate[],
  { rows, centre, scale }: Scales,
  intercept = false,
): Float64Array {
  const lead = intercept ? 1 : 0;
  const width = covariates.length + lead;
  const cells = new Float64Array(rows * width);
  for (let start = 0; start < rows; start += BLOCK) {
    const end = Math.min(rows, start + BLOCK);
    if (intercept) for (let k = start; k < end; k += 1) cells[k * width] = 1;
    for (const [j, { values }] of covariates.entries()) {
      const mean = centre[j] as number;
      const divide = (scale[j] as number) || 1;
      for (let k = start; k < end; k += 1) {
        cells[k * width + lead + j] = ((values[k] as number) - mean) / divide;
      }
    }
  }
  return cells;
}

/**
 * Moves whole rows along the cycles of the order, in place: a row is one piece of memory, where its columns would be
 * looked for one by one in theirs.
 */
function putInOrder(cells: Float64Array, width: number, order: Uint32Array): void {
  const done = new Uint8Array(order.length);
  const held = new Float64Array(width);
  for (let start = 0; start < order.length; start += 1) {
    if (done[start] === 1) continue;
    for (let j = 0; j < width; j += 1) held[j] = cells[start * width + j] as number;
    let to = start;
    for (let from = order[to] as number; from !== start; to = from, from = order[to] as number) {
      done[to] = 1;
      for (let j = 0; j < width; j += 1) cells[to * width + j] = cells[from * width + j] as number;
    }
    done[to] = 1;
    for (let j = 0; j < width; j += 1) cells[to * width + j] = held[j] as number;
  }
}

/** The sum of log scales: what the log determinant of the information gains in the units asked for. */
export const logScales = (design: Scales): number => design.scale.reduce((sum, scale) => sum + Math.log(scale || 1), 0);

/** Coefficients per unit asked for, from those per standard deviation. */
export const unscale = (design: Scales, inside: ArrayLike<number>): Float64Array =>
  Float64Array.from({ length: design.size }, (_, j) => (inside[j] as number) / ((design.scale[j] as number) || 1));

/** The same for a variance. */
export function unscaleVariance(design: Scales, inside: Float64Array): Float64Array {
  const { size } = design;
  return inside.map((value, at) => {
    const i = Math.floor(at / size);
    const j = at % size;
    return value / ((design.scale[i] || 1) * (design.scale[j] || 1));
  });
}
