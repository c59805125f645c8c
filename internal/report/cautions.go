package report

// estimateCaution stands on every page with a result.
const estimateCaution = "An estimate, not tax or legal advice. The official form and its instructions decide."

// cautions are what every person must know before signing.
var cautions = []string{
	"These are estimates from the answers given, not tax or legal advice. Where this page and the official form or its instructions differ, the form is right.",
	"You sign the certificate under penalties of perjury: you declare that what it says is true. Do not sign an entry that is not true for you, whatever this page says.",
	"This is about federal income tax alone. Your state may want a certificate of its own.",
	"Your social security number and your address belong on the official form, in your own hand. This program never asks for them.",
	"Some things are not figured here, among them: claims under a tax treaty, income earned abroad, the special rules for clergy and for household workers, and a letter from the tax agency that tells your employer what to withhold (a lock-in letter). For these ask a licensed tax preparer, or a volunteer tax-help site near you, which is free for many people.",
}

// employerCautions stand on a page that one employer may see: nothing in them
// depends on the answers.
var employerCautions = []string{
	"This page is not the official form. Copy the entries onto it, check them, sign and date it.",
	"Sign only what is true: the form is signed under penalties of perjury.",
}
