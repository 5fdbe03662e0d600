"""The quiz of a lesson: questions, and the forms that course systems take."""
