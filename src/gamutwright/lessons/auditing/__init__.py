"""How texts that were not written as scripts are read, understood and judged; `lesson.audit` is the way in."""
