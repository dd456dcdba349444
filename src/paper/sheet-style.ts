/** The marks of the page's plates in black, for the drawings that take their colours from a style sheet. */
export const SHEET_STYLE = `text{font-family:"Libertinus Serif";font-size:14px;fill:#000;text-anchor:middle}
.region{font-style:italic;font-size:15px}.side,.act{font-weight:700}.border{stroke:#000;stroke-width:1}.flesh{fill:none;stroke:#bbb;stroke-width:.8}
.vein{fill:#b8b8b8;stroke:#444;stroke-width:1.2}.doubt{fill:#e4e4e4}.contour{fill:none;stroke:#000;stroke-width:1.2}
.arm-chosen{fill:#ddd;stroke:#000;stroke-width:2.4}.allowed{fill:none;stroke:#000;stroke-width:2}.skin-mark{fill:#000}
.leader{fill:none;stroke:#000;stroke-width:.7}.catheter-cut{fill:#000}.other-cut{fill:none;stroke:#000;stroke-width:.9;stroke-dasharray:3 3}
.ratio,.ratio-name{font-size:15px;text-anchor:start}.ratio{font-weight:700}`;
