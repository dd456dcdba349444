/**
 * The sheet's layout in Typst. Every word comes from sheet.json as data, never as markup, so nothing a person typed can
 * be read as an instruction.
 */
export const SHEET_LAYOUT = `
#let d = json("sheet.json")
#set document(title: "Bedside plan, " + d.who, date: none)
#set text(font: "Libertinus Serif", size: 9pt, lang: "en")
#set page(paper: "a4", margin: (x: 15mm, top: 22mm, bottom: 24mm),
  header: [#text(size: 12pt)[Plan] #h(4mm) #d.who #h(1fr) #box(stroke: 0.8pt, inset: 3pt)[*#d.arm*] #v(-2mm) #line(length: 100%, stroke: 0.5pt)],
  footer: context [#set text(size: 7.5pt); #d.foot #h(1fr) page #counter(page).display("1 of 1", both: true)])
#set heading(numbering: none)
#show heading: it => block(above: 3mm, below: 1.5mm, text(size: 10.5pt, style: "italic", weight: "regular", it.body))
#let lines(items) = if items.len() > 0 { list(..items.map(item => [#item]), spacing: 1.4mm, indent: 0mm) }
#heading(level: 1, outlined: true)[Bedside plan]
#block(above: 3mm, below: 3mm, text(size: 16pt)[#d.headline])
#d.under
#if d.strip != none and d.section != none { grid(columns: (108mm, 1fr), align: horizon, column-gutter: 2mm,
  image(bytes(d.strip.svg), format: "svg", width: 100%, alt: d.strip.alt),
  image(bytes(d.section.svg), format: "svg", width: 100%, alt: d.section.alt)) }
#if d.stops.len() > 0 [== Stop
#lines(d.stops)]
#if d.asks.len() > 0 [== Ask
#lines(d.asks)]
#if d.why.len() > 0 [== Why
#let half = calc.ceil(d.why.len() / 2)
#grid(columns: (1fr, 1fr), column-gutter: 6mm, lines(d.why.slice(0, half)), lines(d.why.slice(half)))]
#if d.notes.len() > 0 [== Note
#d.notes.join(" ")]
#if d.offers.len() > 0 [== Try, in this order
#enum(..d.offers.map(item => [#item]))]
#if d.changes.len() > 0 [== What would change this
#lines(d.changes.slice(0, calc.min(d.changes.len(), 8)))]
== Not considered
#d.notConsidered.join(" ")
#if d.timeOut.len() > 0 [== Time-out, read aloud
#grid(columns: (1fr, 38mm), column-gutter: 4mm, enum(..d.timeOut.map(item => [#item #h(1fr) yes #box(width: 3mm, height: 3mm, stroke: 0.5pt) no #box(width: 3mm, height: 3mm, stroke: 0.5pt)])),
  if d.body != none { image(bytes(d.body.svg), format: "svg", width: 100%, alt: d.body.alt) })]
#if d.ifItFails.len() > 0 [== If it fails
#lines(d.ifItFails)]
#pagebreak()
#if d.paperStrips.len() > 0 [== Paper strip at true scale
#d.paperStripNote
#for strip in d.paperStrips { block(above: 6mm, image(bytes(strip.svg), format: "svg", width: strip.widthMm * 1mm, alt: strip.alt)) }]
`;
