"""What stands on a sheet: takes a Plan and a template, gives a Document of blocks in mm."""
