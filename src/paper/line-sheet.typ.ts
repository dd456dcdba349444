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
// a key or a number of many signs without a gap is broken where the line ends, and runs into nothing beside it
#show regex("[^\\s\\u{200b}:;,.)]{22,}"): it => it.text.clusters().join(sym.zws)
#show heading.where(level: 1): it => block(above: 2.4mm, below: 2.2mm, text(weight: "regular", it.body))
#show heading.where(level: 2): it => block(above: 1.5em, below: 0.7em, text(size: 1.13em, style: "italic", weight: "regular", it.body))
#let tick(on) = box(width: 3.1mm, height: 3.1mm, stroke: 0.6pt + ink, baseline: 0.5mm,
  if on { align(center + horizon, text(size: 8pt, weight: "bold")[x]) })
#let smallcaps-track(body, size: 7.5pt) = text(size: size, tracking: 1.1pt, upper(body))
// nothing on a page is set smaller than can be read in the hand
#let small(k, body, ..how) = context text(size: calc.max(7pt, k * 1em.to-absolute()), ..how, body)
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

#let typed(b) = block(width: 100%, above: 1em, below: 0.8em, breakable: false, stroke: 0.6pt + ink, inset: 0.85em,
  grid(row-gutter: 0.6em, ..b.lines.map(line => text(font: "DejaVu Sans Mono", size: 1.25em, tracking: 0.5pt, line)), text(size: 0.84em, style: "italic", b.caption)))

#let part(b) = {
  if b.kind == "heading" { heading(level: 2, outlined: true, b.text) }
  else if b.kind == "loud" { block(above: 1.1em, below: 1.1em, text(size: 1.75em, par(leading: 0.42em, b.text))) }
  else if b.kind == "say" { block(above: 0.75em, below: 0.75em, b.text) }
  else if b.kind == "soft" { block(above: 0.8em, below: 0.8em, small(0.86, style: "italic", fill: soft, b.text)) }
  else if b.kind == "list" {
    if b.numbered { enum(..b.items.map(i => [#i]), spacing: 0.62em, numbering: "1") }
    else { list(..b.items.map(i => [#i]), spacing: 0.58em, indent: 0mm, marker: [–]) } }
  else if b.kind == "numbers" {
    block(above: 1.2em, below: 1.2em, stroke: (top: 0.8pt + ink, bottom: 0.3pt + ink), inset: (y: 0.7em), grid(columns: b.items.map(_ => 1fr), column-gutter: 6mm, row-gutter: 0.55em,
      ..b.items.map(i => text(size: 0.95em, style: "italic", i.label)),
      ..b.items.map(i => grid.cell(align: bottom, text(size: if i.value.clusters().len() > 12 {1.3em} else {2.5em}, i.value))),
      ..b.items.map(i => small(0.78, style: "italic", i.at("note", default: ""))))) }
  else if b.kind == "rows" {
    block(above: 0.8em, below: 0.8em, grid(columns: (auto, 1fr), column-gutter: 1.2em, row-gutter: 0.55em,
      ..b.rows.map(r => (text(style: "italic", fill: soft, r.label), noted(r))).flatten())) }
  else if b.kind == "form" { form(b) }
  else if b.kind == "boxes" {
    block(above: 0.9em, below: 0.9em)[#if b.label != "" [#b.label #h(4mm)] #for o in b.options [#box[#tick(o == b.ticked) #h(0.8mm) #o] #h(4mm)]] }
  else if b.kind == "sign" {
    block(above: 8mm, below: 3mm, grid(columns: b.items.map(_ => 1fr), column-gutter: 6mm, row-gutter: 1.2mm,
      ..b.items.map(_ => line(length: 100%, stroke: 0.5pt + ink)),
      ..b.items.map(i => small(0.8, style: "italic", i)))) }
  else if b.kind == "write" {
    block(above: 1em, below: 1em, grid(columns: b.items.map(_ => 1fr), column-gutter: 6mm, row-gutter: 1.4mm,
      ..b.items.map(_ => rect(width: 100%, height: 15mm, stroke: 0.8pt + ink)),
      ..b.items.map(i => small(0.8, style: "italic", i)))) }
  else if b.kind == "typed" { typed(b) }
  else if b.kind == "table" {
    let grouped = b.at("grouped", default: false)
    let closes(y) = y >= b.rows.len() or b.rows.at(y).at(0) != ""
    block(above: 1em, below: 1em, table(columns: b.shares.map(s => s * 1fr), stroke: (x, y) => (bottom: if y == 0 {0.8pt + ink} else if grouped {if closes(y) {0.6pt + luma(90)} else if x > 0 {0.25pt + hair}} else {0.35pt + hair}), inset: (x: 1.2mm, y: if b.at("tight", default: false) {0.34em} else {0.62em}), align: left + horizon,
      table.header(..b.head.map(h => small(0.86, style: "italic", h))),
      ..b.rows.flatten().map(c => small(0.9, c)))) }
  else if b.kind == "drawing" {
    align(center, block(above: 1.1em, below: 1.1em, grid(row-gutter: 1mm, align: center, picture(b.drawing, b.drawing.widthMm * 1mm),
      ..if b.caption == "" { () } else { (small(0.84, style: "italic", b.caption),) }))) }
  else if b.kind == "pictures" {
    block(above: 2mm, grid(columns: (1fr, 1fr), column-gutter: 8mm, row-gutter: 7mm,
      ..b.items.map(i => align(center, grid(row-gutter: 1.6mm, align: center, picture(i.drawing, i.drawing.widthMm * 1mm),
        text(size: 1.55em, i.title), text(size: 1.05em, style: "italic", i.words)))))) }
}
#let parts(blocks) = for b in blocks {
  if b.kind == "columns" { block(above: 0.9em, below: 0.9em, grid(columns: b.shares.map(s => s * 1fr), column-gutter: 8mm, ..b.columns.map(c => c.map(part).join()))) }
  else { part(b) } }

// what a page can say in less room stands behind it: the first form that fits in type that can be read, and of that the
// largest type that keeps the page one page. Only where no form fits is the whole of it drawn smaller
#let fitted(d, width, height, least) = context {
  let at(blocks, size) = block(width: width, { set text(size: size * 1pt); parts(blocks) })
  let forms = (d.blocks, ..d.at("tighter", default: ()))
  let fits(blocks, size) = measure(at(blocks, size)).height <= height
  let form = forms.find(blocks => fits(blocks, least))
  if form == none {
    form = forms.last()
    scale(height / measure(at(form, least)).height * 100%, reflow: true, origin: top + left, at(form, least))
  } else {
    let size = d.typePt
    while size > least and not fits(form, size) { size = calc.max(least, size - 0.25) }
    set text(size: size * 1pt)
    parts(form)
  }
}

#let water(d, size) = if d.practice != "" { place(center + horizon, rotate(-24deg, text(size: size, tracking: 3pt, fill: luma(234), upper(d.practice)))) }
#let papers = (A4: (name: "a4", width: 210mm, height: 297mm), letter: (name: "us-letter", width: 215.9mm, height: 279.4mm))
#let frame(own) = for (edge, stroke) in ((7mm, 0.9pt), (8.4mm, 0.3pt)) {
  place(top + left, dx: edge, dy: edge, rect(width: own.width - 2 * edge, height: own.height - 2 * edge, stroke: stroke + ink))
}
#let arm(d) = if d.arm != "" { box(stroke: 1.1pt + ink, inset: (x: 2.4mm, y: 1.5mm), text(weight: "bold", tracking: 0.5pt, d.arm)) }

#let whole(d, own) = {
  grid(columns: (1fr, auto), align: (left + horizon, right + horizon),
    grid(row-gutter: 1.6mm, text(size: 14pt, d.name), text(size: 9.5pt, d.identifiers)), arm(d))
  v(-2.2mm); line(length: 100%, stroke: 0.8pt + ink); v(-3.2mm); line(length: 100%, stroke: 0.3pt + ink)
  v(-0.6mm)
  align(center)[#smallcaps-track([Plate #d.plate]) #heading(level: 1, outlined: true, text(size: 22pt, d.title)) #text(size: 11pt, style: "italic", d.caption)]
  v(1.5mm)
  fitted(d, own.width - 34mm, own.height - 80mm, 7)
}

#let a6(d) = block(width: 148mm, height: 105mm, stroke: (paint: hair, thickness: 0.5pt, dash: "dashed"), clip: true, {
  place(top + left, dx: 2.5mm, dy: 2.5mm, rect(width: 143mm, height: 100mm, stroke: 0.7pt + ink))
  place(top + left, dx: 3.3mm, dy: 3.3mm, rect(width: 141.4mm, height: 98.4mm, stroke: 0.25pt + ink))
  place(top + center, dy: 22mm, text(size: 24pt, tracking: 3pt, fill: luma(234), upper(d.practice)))
  block(inset: (x: 7mm, top: 5.6mm, bottom: 3.6mm), width: 100%, height: 100%, {
    set par(leading: 0.48em)
    show heading.where(level: 2): it => block(above: 0.2em, below: 0.7em, text(size: 1.1em, style: "italic", weight: "regular", it.body))
    grid(columns: (1fr, auto, auto), column-gutter: 4mm, align: horizon,
      grid(row-gutter: 1.2mm, text(size: 13pt, d.name), d.identifiers), grid(row-gutter: 1.2mm, align: center, text(size: 11.5pt, d.title), text(style: "italic", size: 7pt, d.caption)), arm(d))
    v(-1.2mm); line(length: 100%, stroke: 0.6pt + ink); v(-0.6mm)
    fitted(d, 134mm, 73mm, 6)
    place(bottom + left, text(size: 5.9pt, d.foot + " " + d.page))
  })
})

#for (index, d) in pages.enumerate() {
  let own = papers.at(d.size, default: none)
  set page(paper: if own == none { "a4" } else { own.name }, margin: (x: 17mm, top: 15mm, bottom: 25mm),
    background: if own != none { frame(own); water(d, 46pt) },
    footer-descent: 3mm,
    footer: if own != none { line(length: 100%, stroke: 0.3pt + ink); v(-2.6mm); { set text(size: 7.2pt); grid(columns: (1fr, auto), column-gutter: 4mm, [#d.name, #d.identifiers. #d.foot], d.page) } })
  if own != none { whole(d, own) }
  else {
    set page(margin: (x: 31mm, y: 20mm), footer: none)
    heading(level: 1, outlined: true, text(size: 8pt, [#d.title: two copies, cut along the dashes]))
    a6(d); v(14mm); a6(d)
  }
}
`;
