"""What several folders of tests share and pytest does not collect."""
