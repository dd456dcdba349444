/**
 * The one layout of every paper of a line, in Typst: a plate with its frame, its number, its caption. Every word comes
 * from sheet.json as data, never as markup, so nothing a person typed can be read as an instruction.
 */
export const LINE_SHEET_LAYOUT = `
#let pages = json("sheet.json")
#let first = pages.at(0)
#let ink = black
#let soft = luma(70)
#let hair = luma(150)
#set document(title: first.title + ", " + first.name, date: none)
#set text(font: "Libertinus Serif", size: 10pt, lang: "en", number-type: "lining", number-width: "tabular")
#set par(leading: 0.55em)
#show heading: it => block(above: 4.2mm, below: 1.8mm, text(size: 11.5pt, style: "italic", weight: "regular", it.body))
#let tick(on) = box(width: 3.1mm, height: 3.1mm, stroke: 0.6pt + ink, baseline: 0.5mm,
  if on { align(center + horizon, text(size: 8pt, weight: "bold")[x]) })
#let smallcaps-track(body, size: 7.5pt) = text(size: size, tracking: 1.1pt, upper(body))
#let picture(d, width) = image(bytes(d.svg), format: "svg", width: width, alt: d.alt)
#let ruled(body) = block(width: 100%, inset: (bottom: 1.1mm), stroke: (bottom: 0.4pt + hair), body)
#let noted(row) = [#row.value#if row.at("note", default: "") != "" [ #text(size: 0.62em, style: "italic", weight: "regular")[#row.note]]]

#let form(b) = {
  let cell(body) = align(center + horizon, body)
  table(columns: (7mm, 50mm, 1fr, ..b.missing.map(_ => 9.5mm)), stroke: (x, y) => (bottom: 0.35pt + hair),
    inset: (x: 1mm, y: 1.28mm), align: horizon,
    table.header([], [], [], ..b.missing.map(m => cell(text(size: 6.6pt, style: "italic", m)))),
    ..b.rows.map(r => (
      align(right, text(size: 8.5pt, fill: soft, str(r.number))),
      [#r.label],
      if r.kind == "boxes" {
        r.options.map(o => box[#tick(r.ticked.contains(o)) #h(0.6mm) #text(size: 8.6pt, o)]).join(h(3mm))
        if r.note != "" [ #h(2mm) #text(size: 7pt, style: "italic", r.note)]
      } else {
        grid(columns: (1fr, auto), align: bottom, box(width: 100%, height: 3.6mm, stroke: (bottom: (paint: ink, thickness: 0.5pt, dash: if r.value == "" {"dotted"} else {"solid"})),
          [#text(weight: "bold", r.value) #if r.note != "" [ #text(size: 7pt, style: "italic", r.note)]]),
          [#h(1mm)#text(size: 8.6pt, r.unit)])
      },
      ..b.missing.map(m => cell(tick(r.missing == m))),
    )).flatten())
}

#let typed(b) = block(width: 100%, breakable: false, stroke: 0.6pt + ink, inset: 2.4mm)[
  #for (i, line) in b.lines.enumerate() [#if i > 0 [#linebreak()]#text(font: "DejaVu Sans Mono", size: 10.5pt, tracking: 0.6pt, line)]
  #v(1.2mm, weak: true) #text(size: 7.4pt, style: "italic", b.caption)]

#let part(b) = {
  if b.kind == "heading" { heading(level: 2, outlined: true, b.text) }
  else if b.kind == "loud" { block(above: 3mm, below: 3.4mm, text(size: 19pt, par(leading: 0.42em, b.text))) }
  else if b.kind == "say" { block(above: 1.8mm, below: 1.8mm, b.text) }
  else if b.kind == "soft" { block(above: 1.8mm, below: 1.8mm, text(size: 8.6pt, style: "italic", fill: soft, b.text)) }
  else if b.kind == "list" {
    if b.numbered { enum(..b.items.map(i => [#i]), spacing: 1.7mm, numbering: "1") }
    else { list(..b.items.map(i => [#i]), spacing: 1.6mm, indent: 0mm, marker: [–]) } }
  else if b.kind == "numbers" {
    block(above: 3mm, below: 3mm, grid(columns: b.items.map(_ => 1fr), column-gutter: 5mm,
      ..b.items.map(i => block(width: 100%, stroke: (top: 0.8pt + ink, bottom: 0.3pt + ink), inset: (y: 2.2mm))[
        #text(size: 9.5pt, style: "italic", i.label) #linebreak() #v(0.6mm)
        #text(size: if i.value.clusters().len() > 9 {13pt} else {25pt}, i.value)
        #if i.at("note", default: "") != "" [#linebreak() #text(size: 8pt, style: "italic", i.note)]]))) }
  else if b.kind == "rows" {
    block(above: 2mm, below: 2mm, grid(columns: (auto, 1fr), column-gutter: 4mm, row-gutter: 1.5mm,
      ..b.rows.map(r => (text(style: "italic", fill: soft, r.label), noted(r))).flatten())) }
  else if b.kind == "form" { form(b) }
  else if b.kind == "boxes" {
    block(above: 2.4mm, below: 2.4mm)[#b.label #h(4mm) #for o in b.options [#box[#tick(o == b.ticked) #h(0.8mm) #o] #h(4mm)]] }
  else if b.kind == "sign" {
    block(above: 6mm, below: 2mm, grid(columns: b.items.map(_ => 1fr), column-gutter: 6mm,
      ..b.items.map(i => [#block(width: 100%, height: 5mm, stroke: (bottom: 0.5pt + ink)) #v(-2.6mm) #text(size: 8pt, style: "italic", i)]))) }
  else if b.kind == "typed" { typed(b) }
  else if b.kind == "table" {
    table(columns: b.head.map(_ => auto), stroke: (x, y) => (bottom: if y == 0 {0.8pt + ink} else {0.35pt + hair}), inset: (x: 1.6mm, y: 1.7mm), align: left + horizon,
      table.header(..b.head.map(h => text(size: 8.6pt, style: "italic", h))),
      ..b.rows.flatten().map(c => text(size: 9pt, c))) }
  else if b.kind == "drawing" {
    align(center, block(above: 2mm, below: 2mm)[#picture(b.drawing, b.drawing.widthMm * 1mm)
      #if b.caption != "" [#v(-1.5mm) #text(size: 8.6pt, style: "italic", b.caption)]]) }
  else if b.kind == "pictures" {
    block(above: 2mm, grid(columns: (1fr, 1fr), column-gutter: 8mm, row-gutter: 5mm,
      ..b.items.map(i => align(center)[#picture(i.drawing, i.drawing.widthMm * 1mm) #v(-2.6mm)
        #text(size: 15pt, i.title) #linebreak() #text(size: 10.5pt, style: "italic", i.words)]))) }
}
#let parts(blocks) = for b in blocks {
  if b.kind == "columns" { block(above: 2.4mm, below: 2mm, grid(columns: b.shares.map(s => s * 1fr), column-gutter: 8mm, ..b.columns.map(c => c.map(part).join()))) }
  else { part(b) } }

#let water(d, size) = if d.practice != "" { place(center + horizon, rotate(-24deg, text(size: size, tracking: 5pt, fill: luma(228), upper(d.practice)))) }
#let frame = { place(top + left, dx: 7mm, dy: 7mm, rect(width: 196mm, height: 283mm, stroke: 0.9pt + ink)); place(top + left, dx: 8.4mm, dy: 8.4mm, rect(width: 193.2mm, height: 280.2mm, stroke: 0.3pt + ink)) }
#let arm(d) = if d.arm != "" { box(stroke: 1.1pt + ink, inset: (x: 2.4mm, y: 1.5mm), text(weight: "bold", tracking: 0.5pt, d.arm)) }

#let a4(d) = {
  grid(columns: (1fr, auto), align: (left + horizon, right + horizon),
    [#text(size: 14pt, d.name) #linebreak() #text(size: 9.5pt, d.identifiers)], arm(d))
  v(-2.2mm); line(length: 100%, stroke: 0.8pt + ink); v(-3.2mm); line(length: 100%, stroke: 0.3pt + ink)
  v(-0.6mm)
  align(center)[#smallcaps-track([Plate #d.plate]) #v(-1.6mm) #heading(level: 1, outlined: true, text(size: 21pt, style: "normal", d.title)) #v(-2mm) #text(size: 10.5pt, style: "italic", d.caption)]
  v(0.6mm)
  parts(d.blocks)
}

#let a6(d) = block(width: 148mm, height: 105mm, stroke: (paint: hair, thickness: 0.5pt, dash: "dashed"), clip: true, {
  place(top + left, dx: 2.5mm, dy: 2.5mm, rect(width: 143mm, height: 100mm, stroke: 0.7pt + ink))
  place(top + left, dx: 3.3mm, dy: 3.3mm, rect(width: 141.4mm, height: 98.4mm, stroke: 0.25pt + ink))
  water(d, 34pt)
  block(inset: (x: 7mm, top: 5.6mm, bottom: 3.6mm), width: 100%, height: 100%, {
    set text(size: 8pt)
    set par(leading: 0.48em)
    show heading: it => block(above: 2mm, below: 1mm, text(size: 9pt, style: "italic", weight: "regular", it.body))
    grid(columns: (1fr, auto, auto), column-gutter: 4mm, align: horizon,
      [#text(size: 12pt, d.name) #linebreak() #d.identifiers], align(center)[#text(size: 11pt, d.title) #linebreak() #text(style: "italic", size: 7.4pt, d.caption)], arm(d))
    v(-2.6mm); line(length: 100%, stroke: 0.6pt + ink); v(-2.2mm)
    parts(d.blocks)
    place(bottom + left, text(size: 5.9pt, d.foot + " " + d.page))
  })
})

#for (index, d) in pages.enumerate() {
  set page(paper: "a4", margin: (x: 17mm, top: 15mm, bottom: 25mm),
    background: if d.size == "A4" { frame; water(d, 62pt) },
    footer-descent: 3mm,
    footer: if d.size == "A4" { line(length: 100%, stroke: 0.3pt + ink); v(-2.6mm); text(size: 7.3pt)[#d.name, #d.identifiers. #d.foot #h(1fr) #d.page] })
  if d.size == "A4" { a4(d) }
  else {
    set page(margin: (x: 31mm, y: 20mm), footer: none)
    heading(level: 1, outlined: true, text(size: 8pt, [#d.title: two copies, cut along the dashes]))
    a6(d); v(14mm); a6(d)
  }
}
`;
