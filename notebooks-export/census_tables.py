"""The tables of an export as data frames, for the notebooks beside this file.

An export is what `phrase-census export STUDY --into FOLDER` writes. The notebooks lie in its folder
`notebooks`; anywhere else, name the export in the environment variable PHRASE_CENSUS_EXPORT.
"""

import json
import os
from pathlib import Path

import numpy
import pandas

EXPORT = Path(os.environ.get("PHRASE_CENSUS_EXPORT", "..")).resolve()


def _json(name):
    return json.loads((EXPORT / name).read_text(encoding="utf-8"))


MANIFEST = _json("manifest.json")
FIELDS = {
    resource["name"]: resource["schema"]["fields"]
    for resource in _json("datapackage.json")["resources"]
    if resource.get("type") == "table"
}


def _parquet_reader():
    """A Parquet engine of pandas that is installed, or None."""
    for engine in ("pyarrow", "fastparquet"):
        try:
            __import__(engine)
            return engine
        except ImportError:
            continue
    return None


PARQUET_READER = _parquet_reader()


def has(name):
    """Whether the study has such a table."""
    return name in FIELDS


def table(name):
    """A table of the export: from Parquet when a reader is installed, else from the CSV.

    Both hold the same: the CSV marks texts that could be formulas, which is undone here, and the
    quotients of exact pairs, which only the CSV has, are made here for Parquet.
    """
    if PARQUET_READER:
        frame = pandas.read_parquet(EXPORT / "parquet" / f"{name}.parquet", engine=PARQUET_READER)
        for column in [c[:-4] for c in frame.columns if c.endswith("_num")]:
            frame[column] = frame[f"{column}_num"] / frame[f"{column}_den"]
        return frame
    texts = {f["name"] for f in FIELDS[name] if f["type"] in ("string", "array")}
    lists = {f["name"] for f in FIELDS[name] if f["type"] == "array"}
    required = {
        f["name"] for f in FIELDS[name] if f.get("constraints", {}).get("required", False)
    }
    # Every text as it stands first: 'NA' may be a title, and a bar number may be '007'.
    frame = pandas.read_csv(
        EXPORT / "csv" / f"{name}.csv",
        dtype={column: str for column in texts},
        keep_default_na=False,
        na_values={f["name"]: [""] for f in FIELDS[name] if f["name"] not in texts},
    )
    for column in texts:
        frame[column] = frame[column].str.replace("^'", "", regex=True)
        if column not in required:
            frame.loc[frame[column] == "", column] = None
    for column in lists:
        frame[column] = frame[column].map(lambda text: json.loads(text) if text else None)
    return frame


def quantile(values, share):
    """Quantile after Hyndman and Fan (1996), type 8, as the norms have it."""
    return numpy.quantile(numpy.asarray(values, dtype=float), share, method="median_unbiased")


def same(found, printed, what, tolerance=1e-9):
    """Ends the notebook with an error where a recomputed number is not the printed one."""
    found = numpy.asarray(found, dtype=float)
    printed = numpy.asarray(printed, dtype=float)
    if not numpy.allclose(found, printed, rtol=0, atol=tolerance, equal_nan=True):
        raise AssertionError(f"{what}: recomputed {found}, printed {printed}")
    print(f"agrees: {what} ({found.size} {'number' if found.size == 1 else 'numbers'})")


def check_norms(solo_values, statistic, group_by="all", group_of=None):
    """Holds n, quartiles and median of a statistic against the table norms.

    solo_values: one value a corpus solo, indexed by solo_id; group_of: the group of each solo.
    """
    norms = table("norms")
    norms = norms[(norms.statistic == statistic) & (norms.group_by == group_by)]
    assert len(norms) > 0, f"no norms of {statistic} by {group_by}"
    for norm in norms.itertuples():
        values = solo_values if group_by == "all" else solo_values[group_of == norm.group_value]
        values = values.dropna()
        same(len(values), norm.n, f"n of {statistic}, {norm.group_value}")
        for name, share in (("p25", 0.25), ("p50", 0.5), ("p75", 0.75)):
            printed = getattr(norm, name)
            if not pandas.isna(printed):
                same(quantile(values, share), printed, f"{name} of {statistic}, {norm.group_value}")


CATALOGUE = table("statistics").set_index("key")


def named(statistic):
    """Name and unit of a statistic, for an axis."""
    entry = CATALOGUE.loc[statistic]
    name, unit = entry["name"], entry["unit"]
    return name if unit == "none" or unit in name else f"{name} ({unit})"


def group_column():
    """The first metadata column that groups the norms of this study; None without any."""
    columns = [c for c in MANIFEST["by"] if c in table("solos").columns]
    return columns[0] if columns else None


# Colours that stay apart for readers with any kind of colour vision (Okabe and Ito 2008); marks
# and hatches tell groups apart as well.
COLOURS = ["#0072B2", "#E69F00", "#009E73", "#CC79A7", "#56B4E9", "#D55E00", "#000000"]
MARKS = ["o", "s", "^", "D", "v", "P", "X"]
HATCHES = ["", "//", "..", "xx", "\\\\", "++", "oo"]


def paper_style(pyplot):
    """Plots as a paper wants them: no frame, light grid, one font size."""
    pyplot.rcParams.update(
        {
            "figure.dpi": 110,
            "figure.constrained_layout.use": True,
            "axes.spines.top": False,
            "axes.spines.right": False,
            "axes.grid": True,
            "axes.axisbelow": True,
            "grid.color": "#dddddd",
            "grid.linewidth": 0.6,
            "font.size": 9,
            "axes.titlesize": 10,
            "legend.frameon": False,
        }
    )
