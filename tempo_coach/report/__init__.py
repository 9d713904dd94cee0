"""Reports as pages: HTML, and PDF made of it. All of it needs the extra `report`."""
