### What this course says in every lesson that is drafted for it.

greeting =
    .a = Good evening, and welcome back to the music school by the harbour.
    .b = Good evening. Come in from the quay, and take your instrument out.
sign-off =
    .a = Bring what you found on your own instrument next week.
    .b = Mind the steps on your way home, and sing them.
