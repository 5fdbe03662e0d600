"""Descriptions become files and frames: figures as SVG, PNG and PDF, all in one look."""
