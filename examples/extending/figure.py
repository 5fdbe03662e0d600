"""A figure

A figure is a function from a sketch (a scale, the places that are pointed at, the words of a language) to a `Figure`,
which is shapes with roles, without colours. It is a file in `src/gamutwright/diagrams` with a test of the same name,
and a line in `DIAGRAMS` of `atlas.py`. Then scripts can say `show=step_columns`, a fact can name it as its picture, and
`gamutwright picture --figure step_columns` draws it.

Here the steps of a scale stand beside each other as columns. `Columns` is what vectors and spectra share; `drawing`
knows where words have room and what is read out instead of the picture.
"""

from gamutwright.diagrams.alt_words import tones_in_words
from gamutwright.diagrams.atlas import DIAGRAMS, draw_diagram
from gamutwright.diagrams.column_plot import Column, Columns
from gamutwright.diagrams.layout import Drawing
from gamutwright.diagrams.sketch import Sketch
from gamutwright.inputs.text import read_scale
from gamutwright.ir.figure import Figure


def step_columns(sketch: Sketch) -> Figure:
    """Draw a column for each step, as tall as the step is wide."""
    steps = sketch.scale.step_pattern
    columns = [Column(str(place), step) for place, step in enumerate(steps, 1)]
    drawing = Drawing()
    Columns(columns, max(steps)).draw(drawing)
    said = ", ".join(map(str, steps))
    return drawing.figure(sketch, "Step columns", f"Columns for the steps of {tones_in_words(sketch)}: {said}.")


DIAGRAMS["step_columns"] = step_columns

figure = draw_diagram("step_columns", Sketch(read_scale("G acoustic").scale))
print(figure.alt)
