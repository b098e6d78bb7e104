//! The style of the printable parts list; it stands inside the file, for the file goes alone.

pub(super) const STYLE: &str = "\
:root{color:#23201c;background:#fff;font:10.5pt/1.4 Georgia,'Times New Roman',serif}\
body{max-width:190mm;margin:8mm auto;padding:0 6mm}\
h1{font-size:20pt;font-weight:normal;margin:0}h2{font-size:12.5pt;margin:7mm 0 2mm}\
header{display:flex;justify-content:space-between;gap:8mm;border-bottom:.5mm solid #23201c;padding-bottom:3mm}\
header div{min-width:0}header p{margin:1mm 0 0}dl{display:grid;grid-template-columns:auto auto;gap:0 4mm;margin:0}dt,dd{white-space:nowrap}dd{margin:0;text-align:right}\
figure{margin:4mm auto;text-align:center}figure svg{max-width:100%;max-height:110mm;height:auto}\
.wide{overflow-x:auto}table{border-collapse:collapse;width:100%;font-size:9pt}\
th,td{padding:.8mm 1.6mm;text-align:left;vertical-align:top;border-bottom:.15mm solid #b9b2a6}\
th{font-weight:bold;border-bottom-color:#23201c}.n{text-align:right;font-variant-numeric:tabular-nums;white-space:nowrap}\
.k{white-space:nowrap}tfoot td{font-weight:bold;border-bottom:0}small{display:block;color:#5c554b}\
ul{padding-left:5mm;margin:0}li{margin:.6mm 0}\
@media print{@page{size:A4;margin:12mm}body{max-width:none;margin:0;padding:0}tr,li,figure{break-inside:avoid}\
h2{break-after:avoid}thead{display:table-header-group}.wide{overflow:visible}}";

/// What a quote has besides: picture and sizes side by side.
pub(super) const QUOTE: &str = "\
.chair{display:flex;gap:8mm;align-items:center;flex-wrap:wrap;break-inside:avoid}.chair figure{flex:1 1 70mm;margin:0}\
.chair figure svg{max-height:80mm}.chair dl{flex:1 1 60mm;max-width:90mm}h2{break-after:avoid}section{break-inside:avoid}\
dt{color:#5c554b}header dl{align-content:start}.chair dd{white-space:normal}\
.parts{break-before:page;break-inside:auto}.parts figure svg{max-height:100mm}";
