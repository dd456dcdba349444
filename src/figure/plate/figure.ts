/** A figure is a drawing, one sentence and a table: whoever cannot see it, or prints it in grey, loses nothing. */
export interface Figure {
  readonly svg: string;
  readonly sentence: string;
  readonly table: { readonly columns: readonly string[]; readonly rows: readonly (readonly string[])[] };
}
