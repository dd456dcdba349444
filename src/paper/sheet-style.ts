/** The plate in black: the same marks as on the page, with the colours a grey printer has. */
export const SHEET_STYLE = `text{font-family:"Libertinus Serif";font-size:14px;fill:#000;text-anchor:middle}
.region,.place{font-style:italic;font-size:15px}.place{text-anchor:start}.place.end{text-anchor:end}.side,.act{font-weight:700}
.figure{font-size:13px}.texture{stroke:#000;stroke-width:.8}.dot{fill:#000}.preferred{fill:#ddd}
.border,.skin,.tick{stroke:#000;stroke-width:1}.skin{stroke-width:2}.flesh{fill:none;stroke:#bbb;stroke-width:.8}
.vein{fill:#b8b8b8;stroke:#444;stroke-width:1.2}.doubt{fill:#e4e4e4}.reading{stroke:#444;stroke-width:.8}.station{fill:#000}
.artery,.contour,.past{fill:none;stroke:#000;stroke-width:1.2}.arm-chosen{fill:#ddd;stroke:#000;stroke-width:2.4}.gap{stroke:#000;stroke-dasharray:2 4}
.allowed{fill:none;stroke:#000;stroke-width:2}.hand{fill:#000;opacity:.12}.needle{stroke:#000;stroke-width:2}
.catheter{fill:none;stroke:#000;stroke-width:5}.skin-mark{fill:#000}.vein-mark{fill:#fff;stroke:#000;stroke-width:2.4}
.leader{fill:none;stroke:#000;stroke-width:.7}.catheter-cut{fill:#000}.other-cut{fill:none;stroke:#000;stroke-width:.9;stroke-dasharray:3 3}
.ratio,.ratio-name{font-size:15px;text-anchor:start}.ratio{font-weight:700}`;
